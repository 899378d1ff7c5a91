#include "plan/room_plan.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "air/surface.h"
#include "plan/booth_steps.h"
#include "plan/coat_release.h"
#include "plan/plan_coats.h"
#include "plan/progress.h"
#include "plan/work_sequence.h"
#include "safety/hazard_words.h"

namespace coatwright {
namespace {

using std::chrono::seconds;

std::vector<RoomSource> sources_of(const std::vector<CoatOfPlan>& coats,
                                   DryingClocks& clocks,
                                   double deviate) {
  std::vector<RoomSource> sources;
  for (const CoatOfPlan& coat : coats) {
    if (!coat.vapour.parts.empty()) {
      sources.push_back({coat.vapour,
                         coat.applied,
                         release_of(coat.laid, coat.applied, coat.on_the_wood, clocks, deviate)});
    }
  }
  return sources;
}

/// Where sprayed coats alternate that ignite together, the booth is cleaned in between.
/// Errors: kInputFile when the working times lack it.
Result<void> add_cleaning(const std::vector<CoatOfPlan>& coats,
                          const std::vector<RoomPart>& parts,
                          const std::vector<StaffedHours>& staffed,
                          const RecipeBook& book,
                          Plan& plan) {
  std::vector<SprayedCoat> sprayed;
  for (const CoatOfPlan& coat : coats) {
    const BoothResidue leaves = residue_of(*coat.laid.product, coat.method);
    if (leaves != BoothResidue::kNone && !coat.done) {
      sprayed.push_back({coat.step, coat.applied, leaves});
    }
  }
  if (sprayed.empty()) {
    return {};
  }
  std::vector<BoothUse> logged;
  for (const RoomPart& part : parts) {
    const auto works = scheduled_works(*part.request->schedule, book);
    if (!works) {
      return pass_on(works.error());
    }
    for (const BoothUse& use : booth_uses_of(*part.request, *works)) {
      logged.push_back(use);
    }
  }
  std::stable_sort(logged.begin(), logged.end(), [](const BoothUse& a, const BoothUse& b) {
    return a.start < b.start;
  });
  const auto times = book.working_times();
  if (!times) {
    return pass_on(times.error());
  }
  const auto cleaning = (*times)->find("clean-booth");
  if (cleaning == (*times)->end()) {
    return fail(ErrorCode::kInputFile, "recipes/working_times.toml has no operation 'clean-booth'");
  }
  add_booth_cleaning(std::move(logged), sprayed, staffed, cleaning->second, plan);
  return {};
}

/// The highest of the course from a moment on.
double worst_of(const RoomCourse& course, Time from) {
  return course.peak_of_explosive_limit({from, Time::max() - seconds(60)}).value;
}

/// The least fan, rated, that keeps the air below a quarter of the explosive limit, in whole tens.
/// @param from before it nothing can be helped any more.
std::optional<AirFlow> fan_needed_for(FinishingRoom room,
                                      const std::vector<RoomSource>& sources,
                                      Time from) {
  constexpr double kStep = 10.0;    // m3/h
  constexpr double kMost = 20'000;  // of kStep
  room.rating = FanRating::kRated;
  const auto carries = [&](double steps) {
    room.fan = AirFlow::from_cubic_metres_per_hour(kStep * steps);
    return worst_of(room_course(room, sources), from) <= kShareOfExplosiveLimit;
  };
  if (!carries(kMost)) {
    return std::nullopt;
  }
  double low = 0.0;
  double high = kMost;
  while (high - low > 1.0) {
    const double middle = std::floor((low + high) / 2.0);
    (carries(middle) ? high : low) = middle;
  }
  return AirFlow::from_cubic_metres_per_hour(kStep * high);
}

/// Of two moments the later one; none where either is not in sight.
std::optional<Time> later_of(std::optional<Time> a, std::optional<Time> b) {
  return a && b ? std::optional(std::max(*a, *b)) : std::nullopt;
}

/// The runs of coats that dry slowly, each no sooner over than where they dry quickly.
std::vector<FanRun> longest_runs(std::vector<FanRun> slow, const std::vector<FanRun>& quick) {
  for (FanRun& run : slow) {
    for (const FanRun& other : quick) {
      if (other.on >= run.on && (!run.off || other.on < *run.off)) {
        run.off = later_of(run.off, other.off);
        run.breathable = later_of(run.breathable, other.breathable);
      }
    }
  }
  return slow;
}

class RoomWriter {
 public:
  RoomWriter(const FinishingRoom& room, Plan& plan) : plan_(plan) {
    plan.room = PlanRoom{room, {}, {}, std::nullopt};
  }

  void add_coats(const std::vector<CoatOfPlan>& coats) {
    for (const CoatOfPlan& coat : coats) {
      if (!coat.done) {
        plan_.room->coats.push_back({coat.step, coat.vapour, std::nullopt, std::nullopt});
      }
    }
  }

  void add_peaks(const std::vector<CoatOfPlan>& coats, const RoomCourse& course) {
    const Time end = course.from + seconds(60) * static_cast<std::int64_t>(course.minutes.size());
    for (std::size_t i = 0; i < coats.size(); ++i) {
      // Those that are begun at once have the same stretch.
      const Time start = coats[i].applied.start;
      const auto next = std::find_if(coats.begin(), coats.end(), [start](const auto& one) {
        return one.applied.start > start;
      });
      const Interval until_next{start, next != coats.end() ? next->applied.start : end};
      if (PlanVapour* vapour = vapour_of_step(coats[i].step)) {
        vapour->of_explosive_limit = course.peak_of_explosive_limit(until_next).value;
        vapour->of_exposure_limits = course.peak_of_exposure_limits(until_next).value;
      }
    }
  }

  void add_runs(const std::vector<FanRun>& runs, const RoomCourse& course) {
    for (const FanRun& run : runs) {
      if (is_over(run, course)) {
        continue;
      }
      plan_.room->runs.push_back(run);
      add_step(StepKind::kFanOff, run.off);
      add_step(StepKind::kReenter, run.breathable);
    }
  }

  void warn(std::string code, std::string text) {
    plan_.warnings.push_back({std::move(code), std::move(text), std::nullopt});
  }

 private:
  /// Whether a run lies before the plan. One without an end is over where the fan is off by then,
  /// or another run has begun.
  [[nodiscard]] bool is_over(const FanRun& run, const RoomCourse& course) const {
    if (run.on > plan_.from || run.off) {
      return run.off && *run.off <= plan_.from;
    }
    const bool other_began =
        std::any_of(course.runs.begin(), course.runs.end(), [&](const FanRun& other) {
          return other.on > run.on && other.on <= plan_.from;
        });
    const auto minute = static_cast<std::size_t>((plan_.from - course.from) / seconds(60));
    return other_began || minute >= course.minutes.size() || !course.minutes[minute].fan;
  }

  PlanVapour* vapour_of_step(int id) {
    auto& coats = plan_.room->coats;
    const auto found = std::find_if(
        coats.begin(), coats.end(), [id](const PlanVapour& one) { return one.step == id; });
    return found == coats.end() ? nullptr : &*found;
  }

  void add_step(StepKind kind, std::optional<Time> at) {
    if (!at || *at < plan_.from) {
      return;
    }
    PlanStep step;
    for (const PlanStep& one : plan_.steps) {
      step.id = std::max(step.id, one.id);
    }
    ++step.id;
    step.kind = kind;
    step.start = *at;
    step.end = *at;
    step.attended = false;
    step.people = 0;
    plan_.steps.push_back(std::move(step));
  }

  Plan& plan_;
};

bool any_of(const std::vector<CoatOfPlan>& coats, bool Hazards::*hazard) {
  return std::any_of(coats.begin(), coats.end(), [&](const CoatOfPlan& coat) {
    return !coat.done && coat.laid.product->hazards.*hazard;
  });
}

void add_warnings(const FinishingRoom& room,
                  const std::vector<CoatOfPlan>& coats,
                  double worst,
                  const Plan& plan,
                  RoomWriter& writer) {
  const bool flammable = any_of(coats, &Hazards::flammable);
  if (flammable && room.fan && room.rating != FanRating::kRated) {
    writer.warn(
        "fan-not-rated",
        fmt::format("The fan {} rated for flammable vapour: nothing is reckoned with it, and "
                    "it must not run in such vapour, its motor could ignite it.",
                    room.rating == FanRating::kNotRated ? "is not" : "is not known to be"));
  } else if (flammable && !room.fan) {
    writer.warn("no-exhaust",
                "The room has no exhaust fan: nothing draws the vapour of flammable coats off, and "
                "none of the times here says when its air may be breathed.");
  }
  if (worst > kShareOfExplosiveLimit) {
    writer.warn(
        "vapour-ignites",
        fmt::format(
            "The room cannot carry this plan: mixed through all of its air the vapour comes to "
            "{:.0f} "
            "% of the lower explosive limit, and a quarter of it (25 %) is the most. {}",
            worst * 100.0,
            plan.room->fan_needed
                ? fmt::format(
                      "A fan rated for flammable vapour that moves {:.0f} m3/h ({:.0f} cfm) "
                      "would by calculation; or fewer pieces at a time, or a larger room.",
                      plan.room->fan_needed->cubic_metres_per_hour(),
                      plan.room->fan_needed->cfm())
                : "Fewer pieces at a time, or a larger room with a fan rated for such vapour, "
                  "would."));
  }
  if (any_of(coats, &Hazards::isocyanates) || any_of(coats, &Hazards::formaldehyde)) {
    writer.warn(
        "not-cleared",
        "No figure says when the room's air may be breathed after a coat with isocyanates or "
        "formaldehyde: the data sheet and a measurement do, not the smell.");
  }
}

/// The steps of the room in their places among the others, each with the air of its hour.
void place_steps(std::size_t before, const AirRecord& air, Plan& plan) {
  for (std::size_t i = before; i < plan.steps.size(); ++i) {
    plan.steps[i].air = air.at(plan.steps[i].start);
    plan.steps[i].surface = surface_temperature(air, plan.steps[i].start);
  }
  if (plan.steps.size() > before) {
    std::stable_sort(plan.steps.begin(), plan.steps.end(), [](const auto& a, const auto& b) {
      return a.done != b.done ? a.done : a.start < b.start;
    });
  }
}

/// Errors: from the recipes.
Result<void> add_steps_and_words(const FinishingRoom& room,
                                 const std::vector<RoomPart>& parts,
                                 const std::vector<StaffedHours>& staffed,
                                 const RecipeBook& book,
                                 DryingClocks& clocks,
                                 Plan& plan) {
  auto read = coats_of_plan(plan, parts, book);
  if (!read) {
    return pass_on(read.error());
  }
  const std::vector<CoatOfPlan> coats = std::move(*read);
  for (PlanStep& step : plan.steps) {
    const auto of_step = std::find_if(
        coats.begin(), coats.end(), [&](const CoatOfPlan& coat) { return coat.step == step.id; });
    if (of_step != coats.end() && !step.done) {
      step.hazards = hazard_words(*of_step->laid.product, of_step->method);
    }
  }
  RoomWriter writer(room, plan);
  writer.add_coats(coats);
  const auto cleaned = add_cleaning(coats, parts, staffed, book, plan);
  if (!cleaned || !room.volume) {
    return cleaned;
  }
  const double deviate = normal_deviate(plan.confidence);
  const auto quick = sources_of(coats, clocks, -deviate);
  if (quick.empty()) {
    return {};
  }
  const RoomCourse fullest = room_course(room, quick);
  const double worst = worst_of(fullest, plan.from);
  writer.add_peaks(coats, fullest);
  if (worst > kShareOfExplosiveLimit) {
    plan.room->fan_needed = fan_needed_for(room, quick, plan.from);
  }
  add_warnings(room, coats, worst, plan, writer);
  const RoomCourse longest = room_course(room, sources_of(coats, clocks, deviate));
  writer.add_runs(longest_runs(longest.runs, fullest.runs), longest);
  return {};
}

}  // namespace

Result<void> add_room(const FinishingRoom& room,
                      const std::vector<RoomPart>& parts,
                      const std::vector<StaffedHours>& staffed,
                      const RecipeBook& book,
                      DryingClocks& clocks,
                      Plan& plan) {
  const std::size_t before = plan.steps.size();
  auto added = add_steps_and_words(room, parts, staffed, book, clocks, plan);
  place_steps(before, clocks.air(), plan);
  return added;
}

void refuse_plan(const std::string& why, Plan& plan) {
  plan.hold_ups.push_back({why, seconds(0)});
  plan.search.stopped_by = "proof";  // nothing was left to search for
}

Result<std::string> ignition_forbids(const FinishingRoom& room,
                                     const std::vector<RoomPart>& parts,
                                     const RecipeBook& book) {
  if (room.ignition.empty()) {
    return "";
  }
  for (const RoomPart& part : parts) {
    const auto works = scheduled_works(*part.request->schedule, book);
    if (!works) {
      return pass_on(works.error());
    }
    const Progress progress = progress_of(
        *part.request, *works, part.request->log.empty() ? Time() : part.request->log.back().at);
    for (std::size_t i = 0; i < works->size(); ++i) {
      const Product* product = (*works)[i].product;
      if (product != nullptr && product->hazards.flammable && !progress.faces_left(i).empty()) {
        return fmt::format(
            "{} is flammable, and in the finishing room there is: {}. Its vapour must not meet "
            "that: "
            "take it out or shut it off for good, then `coatwright shop set --ignition none`",
            product->title,
            room.ignition);
      }
    }
  }
  return "";
}

}  // namespace coatwright
