#include "plan/bench_session.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace coatwright {
namespace {

using std::chrono::minutes;
using std::chrono::seconds;

constexpr int kMostSections = 40;

seconds whole_minutes(Hours hours) {
  return minutes(static_cast<std::int64_t>(std::ceil(std::max(1.0, hours.minutes() - 1e-6))));
}

std::string apply_operation(const Product& product, Method method) {
  switch (method) {
    case Method::kWipe:
      if (product.kind == ProductKind::kStain) {
        return "wipe-stain-apply";
      }
      return product.kind == ProductKind::kOil ? "wipe-oil-apply" : "wipe-varnish";
    case Method::kBrush:
      // Waterborne clears and shellac are laid quickly; oil varnish is brushed out.
      return product.oxidises ? "brush" : "brush-waterborne";
    case Method::kPad:
      return "pad";
    case Method::kSpray:
      return "spray";
  }
  return "brush";
}

/// A wiping dwell: every spot is wiped in the order in which it was wetted.
struct Dwell {
  seconds apply;
  seconds wipe;
  seconds wipe_starts;  ///< After the section's first stroke.
  [[nodiscard]] seconds longest() const {
    return std::max(wipe_starts, wipe_starts + wipe - apply);
  }
};

Dwell dwell_of(seconds apply, seconds wipe, seconds opens) {
  return {apply, wipe, std::max({apply, opens, opens + apply - wipe})};
}

}  // namespace

std::string wipe_operation(const Product& product) {
  return product.kind == ProductKind::kStain ? "wipe-stain-off" : "wipe-oil-off";
}

Result<WorkingTime> SessionPlanner::operation(const std::string& name) const {
  const auto found = times_.find(name);
  if (found == times_.end()) {
    return fail(ErrorCode::kInputFile,
                fmt::format("recipes/working_times.toml has no operation '{}'", name));
  }
  return found->second;
}

Result<Hours> SessionPlanner::time_for(const std::string& name, Area area) const {
  const auto time = operation(name);
  if (!time) {
    return pass_on(time.error());
  }
  return time->duration(area, request_.confidence);
}

Area SessionPlanner::area_of(const WorkItem& work) const {
  return Area::from_square_metres(request_.piece.area.square_metres() *
                                  static_cast<double>(std::max<std::size_t>(1, work.faces.size())));
}

double SessionPlanner::hardness() const {
  // Sanding takes 0.8 of the time at specific gravity 0.40, 1.0 at 0.55, 1.4 from 0.75 on (common
  // practice); the density at 12 % moisture content is 1120 times the specific gravity.
  constexpr double kDensityPerGravity = 1120.0;
  if (request_.piece.species == nullptr) {
    return 1.0;
  }
  const double gravity = request_.piece.species->density_kg_per_m3 / kDensityPerGravity;
  if (gravity <= 0.55) {
    return std::max(0.8, 0.8 + (gravity - 0.40) / 0.15 * 0.2);
  }
  return std::min(1.4, 1.0 + (gravity - 0.55) / 0.20 * 0.4);
}

Result<void> SessionPlanner::add(BenchSession& session,
                                 StepKind kind,
                                 const std::string& operation_name,
                                 Area area) const {
  const auto time = operation(operation_name);
  if (!time) {
    return pass_on(time.error());
  }
  SessionPart part;
  part.kind = kind;
  part.offset = session.length;
  part.length = whole_minutes(time->duration(area, request_.confidence));
  part.work_source = time->source;
  session.length += part.length;
  session.parts.push_back(std::move(part));
  return {};
}

Result<BenchSession> SessionPlanner::single(StepKind kind,
                                            const std::string& operation_name,
                                            const WorkItem& work) const {
  BenchSession session;
  if (auto added = add(session, kind, operation_name, area_of(work)); !added) {
    return pass_on(added.error());
  }
  SessionPart& part = session.parts.front();
  part.grit = work.grit;
  if (kind == StepKind::kSand) {
    const double minutes_needed =
        std::ceil(static_cast<double>(part.length.count()) / 60.0 * hardness() - 1e-6);
    part.length = minutes(static_cast<std::int64_t>(minutes_needed));
  }
  if (work.step != nullptr) {
    part.note = work.step->note;
  }
  session.length = part.length;
  return session;
}

Result<void> SessionPlanner::add_wiped_sections(BenchSession& session,
                                                const WorkItem& work,
                                                seconds wipe_closes) const {
  const Product& product = *work.product;
  const std::string apply_name = apply_operation(product, work.step->method);
  const std::string wipe_name = wipe_operation(product);
  const auto opens = seconds(std::llround(product.wipe_off->opens.hours() * 3600.0));
  for (int sections = 1; sections <= kMostSections; ++sections) {
    const Area area = Area::from_square_metres(area_of(work).square_metres() / sections);
    const auto apply = time_for(apply_name, area);
    const auto wipe = time_for(wipe_name, area);
    if (!apply || !wipe) {
      return pass_on(apply ? wipe.error() : apply.error());
    }
    const Dwell dwell = dwell_of(whole_minutes(*apply), whole_minutes(*wipe), opens);
    if (dwell.longest() >= wipe_closes) {  // a window met on its last second is missed
      continue;
    }
    for (int i = 1; i <= sections; ++i) {
      const std::string section =
          sections == 1 ? ""
                        : fmt::format("Section {} of {}, about {:.1f} m2 ({:.0f} sq ft). ",
                                      i,
                                      sections,
                                      area.square_metres(),
                                      area.square_feet());
      SessionPart on{StepKind::kApply,
                     session.length,
                     dwell.apply,
                     "",
                     operation(apply_name)->source,
                     section};
      SessionPart off{
          StepKind::kWipe,
          session.length + dwell.wipe_starts,
          dwell.wipe,
          "",
          operation(wipe_name)->source,
          section + fmt::format("In the order it went on, between {:.0f} and {:.0f} "
                                "minutes after each spot was wetted.",
                                product.wipe_off->opens.minutes(),
                                std::floor(static_cast<double>(wipe_closes.count()) / 60.0))};
      session.length = off.offset + off.length;
      session.parts.push_back(std::move(on));
      session.parts.push_back(std::move(off));
    }
    return {};
  }
  return fail(ErrorCode::kNo,
              fmt::format("{} closes for wiping {:.0f} minutes after it went on in this air: no "
                          "section of the piece is small enough",
                          product.title,
                          static_cast<double>(wipe_closes.count()) / 60.0));
}

Result<BenchSession> SessionPlanner::coat(const WorkItem& work,
                                          const std::string& abrade_grit,
                                          seconds wipe_closes) const {
  const Product& product = *work.product;
  const bool sprayed = work.step->method == Method::kSpray;
  // What is laid with a rag or a pad is wiped where its product has a wipe-off window.
  const bool by_hand = work.step->method == Method::kWipe || work.step->method == Method::kPad;
  const bool wiped = by_hand && product.wipe_off.has_value();
  BenchSession session;
  Result<void> added;
  const auto next = [&](StepKind kind, const std::string& name, Area area) {
    if (added) {
      added = add(session, kind, name, area);
    }
  };
  const Area none = Area::from_square_metres(0);
  if (!abrade_grit.empty()) {
    next(StepKind::kAbrade, "abrade", area_of(work));
  }
  next(StepKind::kClean, "clean", area_of(work));
  next(StepKind::kMix, sprayed ? "gun-set-up" : "mix", none);
  if (!added) {
    return pass_on(added.error());
  }
  if (!abrade_grit.empty()) {
    session.parts.front().grit = abrade_grit;
    // Cleaning and mixing take place while the dust settles; the brush waits for the rest of it.
    const seconds sanded = session.parts.front().length;
    session.length = std::max(session.length, sanded + seconds(kSettling));
  }
  session.apply_offset = session.length;
  if (wiped) {
    added = add_wiped_sections(session, work, wipe_closes);
  } else {
    next(StepKind::kApply, apply_operation(product, work.step->method), area_of(work));
  }
  session.wet_end = session.length;
  // Rags come first of all that follows: they are the step that cannot wait.
  if (product.hazards.rags_self_heat) {
    next(StepKind::kRags, "rags", none);
  }
  if (sprayed) {
    next(StepKind::kCleanGun, "gun-clean-up", none);
  } else if (work.step->method == Method::kBrush) {
    next(StepKind::kClean, "brush-clean", none);
  }
  if (!added) {
    return pass_on(added.error());
  }
  session.parts.back().cleans_tools = session.parts.back().kind == StepKind::kClean;
  return session;
}

}  // namespace coatwright
