#include "plan/odds.h"

#include <catch2/catch.hpp>

#include "drying/coat_progress.h"
#include "plan/plan_requests.h"

using namespace coatwright;
using namespace asked;
using std::chrono::hours;
using std::chrono::minutes;

namespace {

constexpr int kTrials = 40000;
// Four standard errors of a chance of one half: one check in 16,000 fails by luck; the seed is
// fixed, so that it does not.
constexpr double kFourErrors = 4.0 * 0.5 / 200.0;

Plan plan_of(const Schedule& schedule, const AirRecord& air, double confidence, Time by) {
  Asked one;
  one.confidence = confidence;
  one.week = "Mon-Sun 0:00-24:00";
  PlanRequest all = request(one, at("2027-06-07T08:00:00-04:00"), by, zone());
  all.piece.schedule = &schedule;
  auto plan = make_plan(all, book(), air);
  REQUIRE(plan);
  return std::move(*plan);
}

const Time kFarDate = at("2027-06-28T08:00:00-04:00");

/// The waits for recoating with a spread, in turn.
std::vector<const Wait*> recoats(const Plan& plan) {
  std::vector<const Wait*> waits;
  for (const PlanStep& step : plan.steps) {
    for (const Wait& wait : step.after) {
      if (wait.stage == "recoat") {
        waits.push_back(&wait);
      }
    }
  }
  return waits;
}

Time start_of(const Plan& plan, const Wait& wanted) {
  for (const PlanStep& step : plan.steps) {
    for (const Wait& wait : step.after) {
      if (&wait == &wanted) {
        return step.start;
      }
    }
  }
  return plan.from;
}

/// The deviates of one wait by the closed form.
WindowDeviates deviates_of(const Plan& plan, const Wait& wait, const AirRecord& air) {
  DryingClocks clocks(air, plan.from - hours(3));
  const auto timing = [](const std::vector<WaitPhase>& phases) {
    StageTiming whole;
    for (const WaitPhase& phase : phases) {
      whole.phases.push_back({phase.law, DurationRange(phase.low, phase.high), 0.0});
    }
    return whole;
  };
  const Time start = start_of(plan, wait);
  WindowDeviates deviates{
      CoatProgress(clocks, wait.since, wait.gate).opening_deviate(timing(wait.phases), start)};
  if (wait.closing) {
    deviates.closing = CoatProgress(clocks, *wait.closing_since, std::nullopt)
                           .closing_deviate(timing({*wait.closing}), start);
  }
  return deviates;
}

}  // namespace

// Consistency check: simulation against the closed form of the same model.
TEST_CASE("The simulated chance of a single wait is that of the closed form", "[plan]") {
  const AirRecord air = constant_air(20, 50, zone());
  const Schedule schedule = schedule_of({coats("nitrocellulose-lacquer-spray", Method::kSpray, 2)});
  for (const double confidence : {0.6, 0.8, 0.95}) {
    const Plan plan = plan_of(schedule, air, confidence, kFarDate);
    const PlanOdds odds = odds_of(plan, air, kTrials, 1);
    const auto waits = recoats(plan);
    REQUIRE(waits.size() == 1);
    REQUIRE(odds.steps.size() == 1);
    const double expected = normal_probability(deviates_of(plan, *waits.front(), air).opening);
    CHECK(odds.steps.front().chance == Approx(expected).margin(kFourErrors));
    CHECK(odds.as_printed == odds.steps.front().chance);
    CHECK(odds.half_width == Approx(1.96 * 0.5 / 200.0).epsilon(0.01));
  }
}

TEST_CASE("The simulated chance of a window that closes is the joint chance", "[plan]") {
  const AirRecord air = constant_air(23, 50, zone());
  const Schedule schedule = schedule_of({coats("waterborne-clear", Method::kBrush, 2)});
  const Plan plan = plan_of(schedule, air, 0.6, kFarDate);
  const auto waits = recoats(plan);
  REQUIRE(waits.size() == 1);
  const WindowDeviates window = deviates_of(plan, *waits.front(), air);
  const PlanOdds odds = odds_of(plan, air, kTrials, 2);
  REQUIRE(odds.steps.size() == 1);
  CHECK(odds.steps.front().chance == Approx(joint_chance({&window, 1})).margin(kFourErrors));
}

TEST_CASE("Waits share the shop's part of the spread", "[plan]") {
  const AirRecord air = constant_air(20, 50, zone());
  const Schedule schedule = schedule_of({coats("nitrocellulose-lacquer-spray", Method::kSpray, 4)});
  const Plan plan = plan_of(schedule, air, 0.8, kFarDate);
  std::vector<WindowDeviates> windows;
  for (const Wait* wait : recoats(plan)) {
    windows.push_back(deviates_of(plan, *wait, air));
  }
  REQUIRE(windows.size() == 3);
  const PlanOdds odds = odds_of(plan, air, kTrials, 3);
  const double together = joint_chance(windows);
  CHECK(odds.as_printed == Approx(together).margin(kFourErrors));
  // Were they independent it would be about 0.8^3 = 0.51; were they one, 0.8.
  CHECK(together > 0.53);
  CHECK(together < 0.78);
}

TEST_CASE("Waiting longer where a coat is not ready makes a later date likelier", "[plan]") {
  const AirRecord air = constant_air(20, 50, zone());
  const Schedule schedule = schedule_of({coats("nitrocellulose-lacquer-spray", Method::kSpray, 3)});
  const Plan first = plan_of(schedule, air, 0.7, kFarDate);
  REQUIRE(first.finish);
  double before = 0.0;
  for (const hours spare : {hours(0), hours(1), hours(3), hours(24)}) {
    const Plan plan = plan_of(schedule, air, 0.7, *first.finish + spare);
    const PlanOdds odds = odds_of(plan, air, 4000, 4);
    CHECK(odds.by_date >= odds.as_printed);
    CHECK(odds.by_date >= before);
    before = odds.by_date;
  }
  CHECK(before > 0.99);
  const Plan tight = plan_of(schedule, air, 0.7, *first.finish);
  const PlanOdds none = odds_of(tight, air, 4000, 4);
  CHECK(none.by_date < 0.75);
}

TEST_CASE("The same seed gives the same odds, another one nearly so", "[plan]") {
  const AirRecord air = constant_air(20, 50, zone());
  const Schedule schedule = schedule_of({coats("dewaxed-shellac", Method::kPad, 3)});
  const Plan plan = plan_of(schedule, air, 0.8, kFarDate);
  const PlanOdds one = odds_of(plan, air, 5000, 7);
  CHECK(one.as_printed == odds_of(plan, air, 5000, 7).as_printed);
  CHECK(one.as_printed == Approx(odds_of(plan, air, 5000, 8).as_printed).margin(0.04));
}
