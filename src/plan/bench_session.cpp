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

std::string wiping_operation(ProductKind kind) {
  switch (kind) {
    case ProductKind::kStain:
      return "wipe-stain-apply";
    case ProductKind::kFiller:
      return "fill-apply";
    case ProductKind::kWax:
      return "wax-apply";
    case ProductKind::kOil:
      return "wipe-oil-apply";
    default:
      return "wipe-varnish";
  }
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

/// "10 parts base to 1 part hardener by volume. Use it up within 7 h of mixing."
std::string mixing_note(const Mix& mix, seconds pot_life, int batch, int batches) {
  std::string text = batches == 1 ? "" : fmt::format("Batch {} of {}. ", batch, batches);
  for (std::size_t i = 0; i < mix.parts.size(); ++i) {
    text += fmt::format("{}{:g} {} {}",
                        i == 0 ? "" : " to ",
                        mix.parts[i].parts,
                        mix.parts[i].parts == 1.0 ? "part" : "parts",
                        mix.parts[i].name);
  }
  text += mix.by_mass ? " by weight." : " by volume.";
  if (mix.induction.hours() > 0.0) {
    text += fmt::format(" Let it stand {:.0f} minutes before use.", mix.induction.minutes());
  }
  if (pot_life > seconds(0)) {
    const auto minutes_left = std::chrono::floor<minutes>(pot_life).count();
    text += minutes_left < 120
                ? fmt::format(" Use it up within {} minutes of mixing.", minutes_left)
                : fmt::format(" Use it up within {:.1f} h of mixing.",
                              static_cast<double>(minutes_left) / 60.0);
  }
  return text;
}

}  // namespace

std::string apply_operation(const Product& product, Method method) {
  switch (method) {
    case Method::kWipe:
      return wiping_operation(product.kind);
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

HandlingTimes HandlingTimes::at_most(const HandlingTimes& other) const {
  return {std::min(wipe_closes, other.wipe_closes), std::min(pot_life, other.pot_life)};
}

std::string wipe_operation(const Product& product) {
  switch (product.kind) {
    case ProductKind::kStain:
      return "wipe-stain-off";
    case ProductKind::kFiller:
      return "fill-off";
    case ProductKind::kWax:
      return "wax-buff";
    default:
      return "wipe-oil-off";
  }
}

std::string rub_out_operation(const WorkItem& work) {
  if (work.grit.empty()) {
    return "rub-out-polish";
  }
  return work.levels ? "rub-out-level" : "rub-out-grit";
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
                                                Area whole,
                                                seconds wipe_closes) const {
  const Product& product = *work.product;
  const std::string apply_name = apply_operation(product, work.step->method);
  const std::string wipe_name = wipe_operation(product);
  const auto opens = seconds(std::llround(product.wipe_off->opens.hours() * 3600.0));
  for (int sections = 1; sections <= kMostSections; ++sections) {
    const Area area = Area::from_square_metres(whole.square_metres() / sections);
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

Result<void> SessionPlanner::put_on(BenchSession& session,
                                    const WorkItem& work,
                                    Area area,
                                    seconds wipe_closes) const {
  // What is laid with a rag or a pad is wiped where its product has a wipe-off window.
  const bool by_hand = work.step->method == Method::kWipe || work.step->method == Method::kPad;
  if (by_hand && work.product->wipe_off) {
    return add_wiped_sections(session, work, area, wipe_closes);
  }
  return add(session, StepKind::kApply, apply_operation(*work.product, work.step->method), area);
}

Result<void> SessionPlanner::add_batch(BenchSession& session,
                                       const WorkItem& work,
                                       Area area,
                                       const HandlingTimes& times) const {
  const Mix& mix = *work.product->mix;
  if (auto added = add(session, StepKind::kMix, "mix", Area::from_square_metres(0)); !added) {
    return added;
  }
  const seconds mixed = session.length;
  session.length += seconds(std::llround(mix.induction.hours() * 3600.0));
  if (auto added = put_on(session, work, area, times.wipe_closes); !added) {
    return added;
  }
  const auto last = std::find_if(session.parts.rbegin(), session.parts.rend(), [](const auto& one) {
    return one.kind == StepKind::kApply;
  });
  const seconds used_up = last->offset + last->length - mixed;
  if (times.pot_life > seconds(0) && used_up >= times.pot_life) {
    return fail(ErrorCode::kOutOfRange, "");  // a pot life met on its last second is missed
  }
  return {};
}

Result<void> SessionPlanner::add_batches(BenchSession& session,
                                         const WorkItem& work,
                                         const HandlingTimes& times) const {
  const Product& product = *work.product;
  const seconds induction(std::llround(product.mix->induction.hours() * 3600.0));
  for (int batches = 1; batches <= kMostSections; ++batches) {
    const Area area = Area::from_square_metres(area_of(work).square_metres() / batches);
    BenchSession tried = session;
    Result<void> added;
    for (int i = 1; added && i <= batches; ++i) {
      const std::size_t mixing = tried.parts.size();
      added = add_batch(tried, work, area, times);
      if (added) {
        tried.parts[mixing].note = mixing_note(*product.mix, times.pot_life, i, batches);
      }
    }
    if (added) {
      tried.apply_offset = tried.parts[session.parts.size()].offset +
                           tried.parts[session.parts.size()].length + induction;
      session = std::move(tried);
      return {};
    }
    if (added.error().code != ErrorCode::kOutOfRange) {
      return added;
    }
  }
  return fail(ErrorCode::kNo,
              fmt::format("{} must be used up {:.0f} minutes after it was mixed in this air: no "
                          "batch for the piece is small enough",
                          product.title,
                          static_cast<double>(times.pot_life.count()) / 60.0));
}

Result<void> SessionPlanner::add_before_coat(BenchSession& session,
                                             const WorkItem& work,
                                             const std::string& abrade_grit) const {
  const bool sprayed = work.step->method == Method::kSpray;
  const Area none = Area::from_square_metres(0);
  seconds waits(0);
  if (!abrade_grit.empty()) {
    if (auto added = add(session, StepKind::kAbrade, "abrade", area_of(work)); !added) {
      return added;
    }
    session.parts.front().grit = abrade_grit;
    session.parts.front().note = work.abrade_note;
    // Cleaning and mixing take place while the dust settles; the brush waits for the rest of it.
    waits = session.length + seconds(kSettling);
  }
  if (auto added = add(session, StepKind::kClean, "clean", area_of(work)); !added) {
    return added;
  }
  if (work.wash != nullptr) {
    if (auto added = add(session, StepKind::kWash, "wash", area_of(work)); !added) {
      return added;
    }
    session.parts.back().note = work.wash->note;
    waits = std::max(waits, session.length + seconds(kFlashOff));
  }
  // What is mixed of parts is mixed as late as can be, batch by batch.
  if (sprayed || !work.product->mix) {
    if (auto added = add(session, StepKind::kMix, sprayed ? "gun-set-up" : "mix", none); !added) {
      return added;
    }
  }
  session.length = std::max(session.length, waits);
  session.apply_offset = session.length;
  return {};
}

Result<void> SessionPlanner::add_after_coat(BenchSession& session, const WorkItem& work) const {
  const Area none = Area::from_square_metres(0);
  // Rags come first of all that follows: they are the step that cannot wait.
  if (work.product->hazards.rags_self_heat) {
    if (auto added = add(session, StepKind::kRags, "rags", none); !added) {
      return added;
    }
  }
  if (work.step->method == Method::kSpray) {
    return add(session, StepKind::kCleanGun, "gun-clean-up", none);
  }
  if (work.step->method == Method::kBrush) {
    auto added = add(session, StepKind::kClean, "brush-clean", none);
    session.parts.back().cleans_tools = true;
    return added;
  }
  return {};
}

Result<BenchSession> SessionPlanner::coat(const WorkItem& work,
                                          const std::string& abrade_grit,
                                          const HandlingTimes& times) const {
  BenchSession session;
  auto added = add_before_coat(session, work, abrade_grit);
  if (!added) {
    return pass_on(added.error());
  }
  added = work.product->mix ? add_batches(session, work, times)
                            : put_on(session, work, area_of(work), times.wipe_closes);
  session.wet_end = session.length;
  if (added) {
    added = add_after_coat(session, work);
  }
  if (!added) {
    return pass_on(added.error());
  }
  return session;
}

}  // namespace coatwright
