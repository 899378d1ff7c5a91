#include "plan/odds.h"

#include <catch2/catch.hpp>

#include "drying/coat_progress.h"
#include "plan/shop_load.h"
#include "plan/shop_requests.h"

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
      whole.phases.push_back({phase.law, phase.range, 0.0});
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

namespace {

/// One person and two pieces of lacquer, or each with a person of its own.
ShopRequest two_pieces(int people, double confidence, Time by) {
  ShopRequest request = shop(at("2027-06-07T08:00:00-04:00"),
                             at("2027-07-07T08:00:00-04:00"),
                             zone(),
                             "Mon-Sun 0:00-24:00",
                             people);
  request.confidence = confidence;
  request.effort = 300;
  request.resources.finishing_apart = true;
  request.jobs = {job("chest", {part("all", "brushed-shellac", 0.8)}, by),
                  job("stool", {part("all", "brushed-shellac", 0.8)}, by)};
  return request;
}

Plan shop_plan_of(const ShopRequest& request, const AirRecord& air) {
  auto plan = make_shop_plan(request, book(), air);
  REQUIRE(plan);
  REQUIRE(plan->complete);
  plan->shop = plan_shop_of(request);
  return std::move(*plan);
}

}  // namespace

TEST_CASE("A shop of one piece has the odds of that piece's plan", "[plan]") {
  const AirRecord air = constant_air(20, 50, zone());
  const Schedule schedule = schedule_of({coats("nitrocellulose-lacquer-spray", Method::kSpray, 3)});
  const Plan first = plan_of(schedule, air, 0.7, kFarDate);
  Asked one;
  one.confidence = 0.7;
  one.week = "Mon-Sun 0:00-24:00";
  PlanRequest all = request(one, at("2027-06-07T08:00:00-04:00"), *first.finish + hours(1), zone());
  all.piece.schedule = &schedule;
  const auto alone = make_plan(all, book(), air);
  REQUIRE(alone);
  const Plan whole = shop_plan_of(shop_of(all), air);
  REQUIRE(whole.finish == alone->finish);
  const PlanOdds odds = odds_of(whole, air, kTrials, 5);
  const PlanOdds expected = odds_of(*alone, air, kTrials, 6);
  CHECK(odds.as_printed == Approx(expected.as_printed).margin(kFourErrors));
  CHECK(odds.by_date == Approx(expected.by_date).margin(kFourErrors));
  CHECK(odds.by_date > odds.as_printed);
  CHECK(odds.by_date < 1.0);
  REQUIRE(odds.pieces.size() == 1);
  CHECK(odds.pieces.front().chance == odds.by_date);
}

// Two makers who share nothing: the pieces are as likely late as one that has the shop alone.
TEST_CASE("Pieces that share nothing do not wait for each other", "[plan]") {
  const AirRecord air = constant_air(20, 50, zone());
  ShopRequest request = two_pieces(2, 0.7, kFarDate);
  const Time end = *shop_plan_of(request, air).pieces[0].finish;
  ShopRequest alone = two_pieces(2, 0.7, end);
  alone.jobs.pop_back();
  const PlanOdds expected = odds_of(shop_plan_of(alone, air), air, kTrials, 1);
  const PlanOdds odds = odds_of(shop_plan_of(two_pieces(2, 0.7, end), air), air, kTrials, 2);
  REQUIRE(odds.pieces.size() == 2);
  for (const PieceOdds& piece : odds.pieces) {
    CHECK(piece.chance == Approx(expected.by_date).margin(kFourErrors));
    CHECK(odds.by_date <= piece.chance);
  }
  CHECK(expected.by_date < 0.95);
  // The shop's part of the spread is the same for both: together likelier than by twos and threes.
  CHECK(odds.by_date > odds.pieces[0].chance * odds.pieces[1].chance);
}

TEST_CASE("One pair of hands puts one piece off for the other", "[plan]") {
  const AirRecord air = constant_air(20, 50, zone());
  ShopRequest request = two_pieces(1, 0.7, kFarDate);
  const Plan far = shop_plan_of(request, air);
  for (JobRequest& one : request.jobs) {
    one.due = *far.finish;
  }
  const Plan plan = shop_plan_of(request, air);
  const PlanOdds odds = odds_of(plan, air, 4000, 3);
  CHECK(odds.by_date < 0.95);
  Plan two = plan;
  for (StaffedHours& open : two.shop->hours) {
    open.people = 2;
  }
  CHECK(odds_of(two, air, 4000, 3).by_date >= odds.by_date);
  // With a day to spare nothing that is put off comes too late.
  Plan spare = plan;
  for (PlanPiece& piece : spare.pieces) {
    piece.due = *piece.due + hours(24);
  }
  CHECK(odds_of(spare, air, 4000, 3).by_date > 0.99);
}
