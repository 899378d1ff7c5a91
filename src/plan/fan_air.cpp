#include "plan/fan_air.h"

#include <algorithm>

#include <fmt/format.h>

#include "air/fanned_air.h"
#include "plan/air_limits.h"

namespace coatwright {
namespace {

constexpr int kMostPlans = 6;
// Two minutes of a strong fan are half a degree or so; its end matters to no coat that much.
constexpr std::chrono::minutes kSameStart{2};
constexpr std::chrono::minutes kSameEnd{10};
/// A fan of which no figure says when it may be off is taken to run so long.
constexpr std::chrono::hours kOpenEnd{12};

std::vector<Interval> runs_of(const Plan& plan) {
  std::vector<Interval> runs;
  if (plan.room) {
    for (const FanRun& run : plan.room->runs) {
      runs.push_back({run.on, run.off.value_or(run.on + kOpenEnd)});
    }
  }
  return runs;
}

bool are_same(const std::vector<Interval>& a, const std::vector<Interval>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const auto& x, const auto& y) {
    return std::chrono::abs(x.start - y.start) <= kSameStart &&
           std::chrono::abs(x.end - y.end) <= kSameEnd;
  });
}

double changes_per_hour(const FinishingRoom& room) {
  return room.fan->cubic_metres_per_hour() / room.volume->cubic_metres();
}

void add_warning(bool settled, Plan& plan) {
  plan.warnings.push_back(
      {"fan-air",
       fmt::format(
           "While the fan runs it draws outdoor air in: the plan reckons with what that does "
           "to the shop's air, its temperature going half of the way to the outdoor one{}.",
           settled ? ""
                   : "; its hours did not settle, so that the air of a coat may be that of "
                     "a fan that runs a little sooner or later"),
       std::nullopt});
}

/// The film has set after so long; until then the air must keep its product's limits.
constexpr std::chrono::minutes kSetting{30};

/// Names the coats whose own fan takes the air out of their limits.
void check_own_fan(const AirRecord& drawn_in, Plan& plan) {
  for (const PlanVapour& coat : plan.room->coats) {
    const auto step = std::find_if(plan.steps.begin(), plan.steps.end(), [&](const PlanStep& one) {
      return one.id == coat.step;
    });
    const AirLimits limits(drawn_in, *coat.vapour.product);
    const auto breach = limits.first_breach(step->start, step->end + kSetting);
    if (!breach) {
      continue;
    }
    const std::string why = fmt::format(
        "With the fan on that coat {} of {} needs, {}: warm the air that comes in, by a heater "
        "whose "
        "flame or glow is not in the room, or wait for milder weather",
        step->coat,
        step->piece,
        breach->text);
    plan.fits = false;
    plan.hold_ups.insert(plan.hold_ups.begin(), {why, std::chrono::seconds(0)});
    plan.warnings.push_back({"fan-air-limits", why + ".", coat.step});
    return;  // the others are much the same
  }
}

}  // namespace

Result<Plan> plan_in_fan_air(const PlanMaker& make,
                             const AirRecord& air,
                             const std::optional<AirRecord>& outdoors,
                             Interval known) {
  Result<Plan> plan = make(air);
  std::vector<Interval> runs = plan ? runs_of(*plan) : std::vector<Interval>();
  if (!outdoors || runs.empty()) {
    return plan;
  }
  bool settled = false;
  for (int i = 1; i < kMostPlans && !settled; ++i) {
    const AirRecord drawn_in =
        fanned(air, *outdoors, runs, changes_per_hour(plan->room->room), known);
    plan = make(drawn_in);
    if (!plan) {
      return plan;
    }
    std::vector<Interval> now = runs_of(*plan);
    settled = are_same(now, runs);
    if (now.empty()) {
      break;  // in that air nothing is sprayed any more
    }
    runs = std::move(now);
  }
  add_warning(settled, *plan);
  if (!settled && !runs.empty()) {
    check_own_fan(fanned(air, *outdoors, runs, changes_per_hour(plan->room->room), known), *plan);
  }
  return plan;
}

}  // namespace coatwright
