#include "cli/safety_job.h"

#include <algorithm>
#include <deque>
#include <map>

#include <date/date.h>
#include <fmt/format.h>

#include "cli/finished_parts.h"
#include "plan/bench_session.h"
#include "plan/coats_to_come.h"
#include "plan/room_plan.h"
#include "plan/work_sequence.h"
#include "quantity/quantity.h"

namespace coatwright {
namespace {

using std::chrono::seconds;

constexpr double kSlowEnd = 0.9;
// Air that is looked at for the films of the last coat.
constexpr std::chrono::hours kAhead{24 * 10};
constexpr std::chrono::hours kAirBefore{6};

/// A coat that is still to be put on.
struct CoatToCome {
  std::string piece;
  SheetCoat coat;
};

/// Gathers the coats of pieces.
class CoatList {
 public:
  CoatList(const RecipeBook& book, const Session& session) : book_(book), session_(session) {}

  Result<void> add(const StoredPiece& stored) {
    auto parts = finished_parts(stored, book_, session_);
    if (!parts) {
      return pass_on(parts.error());
    }
    const auto kept = session_.store.kept_plan(stored.name);
    if (!kept) {
      return pass_on(kept.error());
    }
    for (FinishedPart& part : *parts) {
      parts_.push_back(std::move(part));
      const FinishedPart& mine = parts_.back();
      room_parts_.push_back({stored.name, mine.name, &mine.request});
      const auto added = *kept ? add_planned(stored, mine, **kept) : add_undated(stored, mine);
      if (!added) {
        return added;
      }
    }
    return {};
  }

  /// All of them, those that are planned with what the room's air comes to.
  Result<std::vector<CoatToCome>> coats(SafetyFigures& figures) {
    figures.room = session_.shop.room;
    if (plan_.steps.empty()) {
      return std::move(undated_);
    }
    if (const auto added = follow_room(); !added) {
      return pass_on(added.error());
    }
    std::vector<CoatToCome> all = std::move(undated_);
    for (const PlanVapour& vapour : plan_.room->coats) {
      const PlanStep& step = step_of(vapour.step);
      all.push_back({step.piece, {step.piece, step.coat, step.start, vapour}});
    }
    figures.runs = plan_.room->runs;
    figures.fan_needed = plan_.room->fan_needed;
    return all;
  }

 private:
  static bool is_of(const KeptStep& step, const FinishedPart& part) {
    return step.kind == StepKind::kApply && (step.part.empty() || step.part == part.name);
  }

  Result<void> add_planned(const StoredPiece& stored,
                           const FinishedPart& part,
                           const KeptPlan& kept) {
    const auto times = book_.working_times();
    if (!times) {
      return pass_on(times.error());
    }
    const auto works = scheduled_works(*part.request.schedule, book_);
    if (!works) {
      return pass_on(works.error());
    }
    for (const KeptStep& one : kept.steps) {
      if (is_of(one, part) && one.start >= session_.now) {
        plan_.steps.push_back(step_of_plan(one, stored, part, *works, **times));
      }
    }
    return {};
  }

  PlanStep step_of_plan(const KeptStep& kept,
                        const StoredPiece& stored,
                        const FinishedPart& part,
                        const std::vector<WorkItem>& works,
                        const WorkingTimes& times) {
    PlanStep step;
    step.id = static_cast<int>(plan_.steps.size()) + 1;
    step.kind = StepKind::kApply;
    step.piece = stored.name;
    step.part = part.name;
    step.face = kept.face;
    step.product = kept.product;
    step.coat = kept.coat;
    step.start = kept.start;
    step.end = kept.start + work_on(kept, part, works, times);
    return step;
  }

  /// How long a coat takes, as plans reckon it.
  static seconds work_on(const KeptStep& kept,
                         const FinishedPart& part,
                         const std::vector<WorkItem>& works,
                         const WorkingTimes& times) {
    for (const WorkItem& work : works) {
      if (work.product != nullptr && work.coat == kept.coat) {
        const double faces = kept.face == "both" ? 2.0 : 1.0;
        const Area area = Area::from_square_metres(part.request.area.square_metres() * faces);
        const auto found = times.find(apply_operation(*work.product, work.step->method));
        return found == times.end() ? seconds(0)
                                    : seconds(static_cast<std::int64_t>(
                                          found->second.duration(area, kSlowEnd).hours() * 3600.0));
      }
    }
    return seconds(0);
  }

  Result<void> add_undated(const StoredPiece& stored, const FinishedPart& part) {
    const auto uses = coats_to_come(part.request, session_.now, book_, {});
    if (!uses) {
      return pass_on(uses.error());
    }
    const Temperature shop =
        session_.shop.usual_day_or_assumed().at(session_.now, session_.zone).temperature;
    int coat = 0;
    for (const CoatUse& use : *uses) {
      const Volume used = Volume::from_litres(use.area.square_metres() / cover_rate(use).m2_per_l);
      PlanVapour vapour{0, vapour_of(*use.product, used, shop), std::nullopt, std::nullopt};
      undated_.push_back({stored.name, {stored.name, ++coat, std::nullopt, std::move(vapour)}});
    }
    return {};
  }

  Result<void> follow_room() {
    Time first = plan_.steps.front().start;
    Time last = first;
    for (const PlanStep& step : plan_.steps) {
      first = std::min(first, step.start);
      last = std::max(last, step.end);
    }
    const auto air = session_.air(first - kAirBefore, last + kAhead);
    if (!air) {
      return pass_on(air.error());
    }
    for (PlanStep& step : plan_.steps) {
      step.air = air->at(step.start);
    }
    plan_.from = first;
    DryingClocks clocks(*air, first - kAirBefore);
    return add_room(session_.shop.room, room_parts_, {}, book_, clocks, plan_);
  }

  [[nodiscard]] const PlanStep& step_of(int id) const {
    return *std::find_if(plan_.steps.begin(), plan_.steps.end(), [id](const PlanStep& step) {
      return step.id == id;
    });
  }

  const RecipeBook& book_;
  const Session& session_;
  std::deque<FinishedPart> parts_;
  std::vector<RoomPart> room_parts_;
  Plan plan_;  ///< Of what was planned, its coats alone.
  std::vector<CoatToCome> undated_;
};

std::string day_of(const std::optional<Time>& at, const Session& session) {
  return at ? show_date(*at, session.zone) : "";
}

/// What is put on together.
std::string key_of(const CoatToCome& coat, SheetPer per, const Session& session) {
  switch (per) {
    case SheetPer::kPiece:
      return coat.piece;
    case SheetPer::kDay:
      return coat.coat.at ? date::format("%F", session.zone.to_local(*coat.coat.at)) : "";
    case SheetPer::kJob:
      break;
  }
  return "";
}

void add_to(SafetyJob& job, const CoatToCome& coat) {
  if (job.pieces.find(coat.piece) == std::string::npos) {
    job.pieces += (job.pieces.empty() ? "" : ", ") + coat.piece;
  }
  const CoatVapour& vapour = coat.coat.vapour.vapour;
  job.products.push_back(vapour.product);
  job.figures.coats.push_back(coat.coat);
}

/// What is to be at hand for the coats of one sheet, waste included.
void add_stored(bool cabinet, const Waste& waste, SafetyJob& job) {
  for (const SheetCoat& coat : job.figures.coats) {
    const CoatVapour& vapour = coat.vapour.vapour;
    job.stored.push_back({vapour.product->title,
                          Volume::from_litres(vapour.used.litres() * (1.0 + waste.percent / 100.0)),
                          fire_category(*vapour.product),
                          cabinet ? StoragePlace::kCabinet : StoragePlace::kShop});
  }
}

/// The fan runs that begin among a sheet's coats.
void take_runs(const SafetyFigures& all, SafetyJob& job) {
  job.figures.room = all.room;
  job.figures.fan_needed = all.fan_needed;
  for (const FanRun& run : all.runs) {
    const bool mine =
        std::any_of(job.figures.coats.begin(), job.figures.coats.end(), [&](const auto& coat) {
          return coat.at && *coat.at >= run.on && (!run.off || *coat.at < *run.off);
        });
    if (mine) {
      job.figures.runs.push_back(run);
    }
  }
}

}  // namespace

Result<std::vector<SafetyJob>> safety_jobs(const std::vector<StoredPiece>& pieces,
                                           SheetPer per,
                                           std::optional<Time> day,
                                           const RecipeBook& book,
                                           const Session& session) {
  CoatList list(book, session);
  for (const StoredPiece& piece : pieces) {
    if (const auto added = list.add(piece); !added) {
      return pass_on(added.error(), piece.name);
    }
  }
  SafetyFigures all;
  const auto coats = list.coats(all);
  if (!coats) {
    return pass_on(coats.error());
  }
  std::map<std::string, SafetyJob> jobs;
  const std::string wanted = day_of(day, session);
  for (const CoatToCome& coat : *coats) {
    const std::string its_day = day_of(coat.coat.at, session);
    if (day && its_day != wanted) {
      continue;
    }
    SafetyJob& job = jobs[key_of(coat, per, session)];
    job.day = day || per == SheetPer::kDay ? its_day : "";
    add_to(job, coat);
  }
  if (jobs.empty()) {
    return fail(ErrorCode::kNo,
                day ? fmt::format("no coat is planned for {}; `coatwright plan` plans", wanted)
                    : "no coat is left to be put on");
  }
  const auto application = book.application();
  if (!application) {
    return pass_on(application.error());
  }
  std::vector<SafetyJob> sheets;
  for (auto& [key, job] : jobs) {
    take_runs(all, job);
    add_stored(session.shop.cabinet.value_or(false), (*application)->waste, job);
    sheets.push_back(std::move(job));
  }
  return sheets;
}

}  // namespace coatwright
