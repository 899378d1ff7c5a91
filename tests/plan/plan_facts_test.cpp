#include <algorithm>

#include <catch2/catch.hpp>

#include "plan/plan_checker.h"
#include "plan/plan_requests.h"

using namespace coatwright;
using namespace asked;
using Catch::Matchers::Contains;
using std::chrono::hours;
using std::chrono::minutes;

namespace {

constexpr const char* kWeek = "Mon-Fri 8:00-17:00; Sat-Sun 9:00-13:00";

double hours_between(Time from, Time to) {
  return Hours::from_seconds(to - from).hours();
}

/// Finds every fault of a plan by the second reckoning.
void check_whole(const Plan& plan, const PlanRequest& request, const AirRecord& air) {
  const auto faults = own::PlanChecker(plan, request, book(), air).faults();
  for (const std::string& fault : faults) {
    UNSCOPED_INFO(fault);
  }
  CHECK(faults.empty());
}

Plan plan_of(const PlanRequest& request, const AirRecord& air) {
  const auto plan = make_plan(request, book(), air);
  if (!plan) {
    FAIL(plan.error().text());
  }
  check_whole(*plan, request, air);
  return *plan;
}

/// One product in some coats, in New York in June 2027.
Plan plan_of_coats(const Schedule& schedule, const AirRecord& air, double confidence = 0.9) {
  Asked one;
  one.confidence = confidence;
  one.week = "Mon-Sun 0:00-24:00";
  PlanRequest all =
      request(one, at("2027-06-07T08:00:00-04:00"), at("2027-06-21T08:00:00-04:00"), zone());
  all.piece.schedule = &schedule;
  return plan_of(all, air);
}

const PlanStep& first_of(const Plan& plan, StepKind kind, int coat) {
  for (const PlanStep& step : plan.steps) {
    if (step.kind == kind && step.coat == coat) {
      return step;
    }
  }
  FAIL("the plan has no such step");
  return plan.steps.front();
}

}  // namespace

// EVIDENCE: common-practice, no source: a wiped oil stain of Friday takes lacquer on Monday
TEST_CASE("Oil stain of Friday afternoon takes lacquer on Monday morning", "[plan]") {
  const AirRecord air = constant_air(20, 45, zone());
  Asked one;
  one.schedule = "stain-and-lacquer";
  one.week = "Mon-Thu 8:00-17:00; Fri 15:00-17:00";
  const PlanRequest all =
      request(one, at("2027-06-11T15:00:00-04:00"), at("2027-06-14T20:00:00-04:00"), zone());
  const Plan plan = plan_of(all, air);
  const PlanStep& stain = first_of(plan, StepKind::kApply, 1);
  CHECK(stain.start >= at("2027-06-11T15:30:00-04:00"));
  CHECK(stain.end <= at("2027-06-11T17:00:00-04:00"));
  const PlanStep& sealer = first_of(plan, StepKind::kApply, 2);
  REQUIRE(sealer.after.size() == 1);
  CHECK(sealer.after.front().opens_at <= at("2027-06-14T08:00:00-04:00"));
  CHECK(sealer.start < at("2027-06-14T09:00:00-04:00"));
  CHECK(sealer.start >= at("2027-06-14T08:00:00-04:00"));
}

// EVIDENCE: common-practice, no source: no lacquer in a cold or damp room
TEST_CASE("Lacquer is not planned in cold or damp air, and the plan says why", "[plan]") {
  const Schedule lacquer = schedule_of({coats("nitrocellulose-lacquer-spray", Method::kSpray, 1)});
  const Plan cold = plan_of_coats(lacquer, constant_air(12, 50, zone()));
  CHECK_FALSE(cold.complete);
  CHECK_FALSE(cold.fits);
  CHECK(of_kind(cold, StepKind::kApply).empty());
  CHECK_THAT(reasons(cold), Contains("12.0 C") && Contains("16.0 C"));
  const Plan damp = plan_of_coats(lacquer, constant_air(20, 80, zone()));
  CHECK_FALSE(damp.complete);
  CHECK(of_kind(damp, StepKind::kApply).empty());
  CHECK_THAT(reasons(damp), Contains("80 %") && Contains("60 %"));
  CHECK(plan_of_coats(lacquer, constant_air(20, 55, zone())).complete);
}

TEST_CASE("Lacquer waits for the hour when the damp has gone", "[plan]") {
  const Schedule lacquer = schedule_of({coats("nitrocellulose-lacquer-spray", Method::kSpray, 1)});
  const Time start = at("2027-06-07T08:00:00-04:00");
  std::vector<AirEntry> entries;
  for (int hour = -6; hour <= 40; ++hour) {
    entries.push_back(forecast(start + hours(hour), 20, hour < 10 ? 80 : 45));
  }
  const AirRecord air(entries, *UsualDay::parse("0:00 20C 45%"), zone());
  const Plan plan = plan_of_coats(lacquer, air);
  REQUIRE(plan.complete);
  const PlanStep& coat = first_of(plan, StepKind::kApply, 1);
  CHECK(coat.start > start + hours(9));
  CHECK(coat.start <= start + hours(10) + minutes(30));
  CHECK_THAT(reasons(plan), Contains("outside the limits"));
}

TEST_CASE("Below 10 C nothing is credited to an oil stain", "[plan]") {
  // Warm on the day of the coat, 9 C for three days, then warm again.
  const Schedule stain = schedule_of({coats("oil-wiping-stain", Method::kWipe, 1),
                                      coats("nitrocellulose-lacquer-spray", Method::kSpray, 1)});
  const Time start = at("2027-06-07T08:00:00-04:00");
  const auto air_with_cold = [&](int cold_hours) {
    std::vector<AirEntry> entries;
    for (int hour = -6; hour <= 200; ++hour) {
      const bool cold = hour >= 4 && hour < 4 + cold_hours;
      entries.push_back(forecast(start + hours(hour), cold ? 9.0 : 20.0, 45));
    }
    return AirRecord(entries, *UsualDay::parse("0:00 20C 45%"), zone());
  };
  const auto opens = [&](int cold_hours) {
    const Plan plan = plan_of_coats(stain, air_with_cold(cold_hours));
    REQUIRE(plan.complete);
    return first_of(plan, StepKind::kApply, 2).after.front().opens_at;
  };
  // Two days more of cold are two days more of waiting.
  CHECK(hours_between(opens(24), opens(72)) == Approx(48.0).margin(0.02));
  CHECK(hours_between(opens(0), opens(24)) > 23.0);
}

TEST_CASE("Waterborne clear is not planned below its film-formation temperature", "[plan]") {
  const Schedule clear = schedule_of({coats("waterborne-clear", Method::kBrush, 1)});
  const Plan plan = plan_of_coats(clear, constant_air(9, 50, zone()));
  CHECK_FALSE(plan.complete);
  CHECK(of_kind(plan, StepKind::kApply).empty());
  CHECK_THAT(reasons(plan), Contains("9.0 C") && Contains("10.0 C"));
}

TEST_CASE("A last coat is not planned just before the cold comes to stay", "[plan]") {
  // 18 C until 10:00, falling below every limit by noon and for good: the film would be spoiled.
  const Schedule clear = schedule_of({coats("waterborne-clear", Method::kBrush, 1)});
  const Time start = at("2027-06-07T08:00:00-04:00");
  std::vector<AirEntry> entries;
  for (int half = -12; half <= 4; ++half) {
    entries.push_back(forecast(start + minutes(30 * half), 18, 50));
  }
  entries.push_back(forecast(start + hours(3), 6, 50));
  const AirRecord air(entries, *UsualDay::parse("0:00 5C 60%"), zone());
  Asked one;
  PlanRequest all = request(one, start + minutes(100), start + hours(200), zone());
  all.piece.schedule = &clear;
  const auto plan = make_plan(all, book(), air);
  REQUIRE(plan);
  CHECK_FALSE(plan->complete);
  CHECK(of_kind(*plan, StepKind::kApply).empty());
}

// Consistency check: at the reference atmosphere a wait is its range's own quantile.
TEST_CASE("At 23 C and 50 % the label's times come back", "[plan]") {
  const Schedule varnish = schedule_of({coats("oil-modified-varnish", Method::kBrush, 1),
                                        abrading("P320"),
                                        coats("oil-modified-varnish", Method::kBrush, 1)});
  for (const double confidence : {0.6, 0.9}) {
    const Plan plan = plan_of_coats(varnish, constant_air(23, 50, zone()), confidence);
    REQUIRE(plan.complete);
    const Wait& wait = first_of(plan, StepKind::kApply, 2).after.front();
    const double label = own::quantile(6, 24, confidence);
    CHECK(hours_between(wait.since, wait.opens_at) == Approx(label).margin(0.01));
  }
  const Plan plan = plan_of_coats(varnish, constant_air(23, 50, zone()), 0.9);
  const Wait& wait = first_of(plan, StepKind::kApply, 2).after.front();
  CHECK(hours_between(wait.since, wait.opens_at) == Approx(24.0).margin(0.01));
}

// EVIDENCE: freiesleben1977, Arrhenius with 50 kJ/mol between 12 and 21 C:
// exp(50000/8.314462618 (1/285.15 - 1/294.15)) = 1.9064, worked out by hand
TEST_CASE("Oil dries 1.91 times as long at 12 C as at 21 C", "[plan]") {
  const Schedule stain = schedule_of(
      {coats("oil-wiping-stain", Method::kWipe, 1), coats("boiled-linseed-oil", Method::kWipe, 1)});
  const auto drying_at = [&](double celsius) {
    const Plan plan = plan_of_coats(stain, constant_air(celsius, 50, zone()));
    REQUIRE(plan.complete);
    const Wait& wait = first_of(plan, StepKind::kApply, 2).after.front();
    return hours_between(wait.since, wait.opens_at);
  };
  CHECK(drying_at(12) / drying_at(21) == Approx(1.906).epsilon(0.01));
}

TEST_CASE("A retarder lengthens the wait for solvent", "[plan]") {
  // EVIDENCE: relative_evaporation_lists; 5 % of E = 0.075 in E = 1: 0.95 + 0.05 / 0.075 = 1.617
  const AirRecord air = constant_air(23, 50, zone());
  ScheduleStep lacquer = coats("nitrocellulose-lacquer-spray", Method::kSpray, 2);
  const auto hours_of = [&](const ScheduleStep& step) {
    const Schedule schedule = schedule_of({step});
    Asked one;
    PlanRequest all =
        request(one, at("2027-06-07T08:00:00-04:00"), at("2027-06-21T08:00:00-04:00"), zone());
    all.piece.schedule = &schedule;
    const auto plan = make_plan(all, book(), air);  // the checker knows no thinner
    REQUIRE(plan);
    return first_of(*plan, StepKind::kApply, 2).after.front().needed.hours();
  };
  const double plain = hours_of(lacquer);
  lacquer.thinning = Thinning{*relative_evaporation_of("2-butoxyethanol"), 0.05};
  CHECK(hours_of(lacquer) == Approx(1.6167 * plain).epsilon(1e-3));
}

TEST_CASE("Two faces lying flat are turned over, on points both are coated at once", "[plan]") {
  const AirRecord air = constant_air(20, 45, zone());
  Asked one;
  one.schedule = "shellac-and-waterborne";
  const Time start = at("2027-06-07T08:00:00-04:00");
  one.faces = Faces::kTwo;
  const Plan flat = plan_of(request(one, start, start + hours(400), zone()), air);
  one.faces = Faces::kOnPoints;
  const Plan points = plan_of(request(one, start, start + hours(400), zone()), air);
  REQUIRE(flat.complete);
  REQUIRE(points.complete);
  CHECK(of_kind(flat, StepKind::kFlip).size() >= 1);
  CHECK(of_kind(points, StepKind::kFlip).empty());
  CHECK(of_kind(flat, StepKind::kApply).size() == 8);
  CHECK(of_kind(points, StepKind::kApply).size() == 4);
  CHECK(*points.finish < *flat.finish);
  CHECK(of_kind(points, StepKind::kApply).front()->face == "both");
}

// EVIDENCE: trade_finishing_web, the solvents of lacquer wrinkle an oil film
TEST_CASE("Lacquer over oil varnish is refused, with the reason", "[plan]") {
  const Schedule schedule = schedule_of({coats("oil-modified-varnish", Method::kBrush, 1),
                                         coats("nitrocellulose-lacquer-spray", Method::kSpray, 1)});
  PlanRequest all =
      request({}, at("2027-06-07T08:00:00-04:00"), at("2027-06-21T08:00:00-04:00"), zone());
  all.piece.schedule = &schedule;
  const auto plan = make_plan(all, book(), constant_air(20, 45, zone()));
  REQUIRE_FALSE(plan);
  CHECK(plan.error().code == ErrorCode::kOutOfRange);
  CHECK_THAT(plan.error().message, Contains("wrinkle"));
}

TEST_CASE("A top too large to wipe in its window is stained in sections", "[plan]") {
  const AirRecord air = constant_air(20, 45, zone());
  Asked one;
  one.schedule = "stain-and-wiping-varnish";
  const Time start = at("2027-06-07T08:00:00-04:00");
  for (const double square_metres : {1.0, 5.5}) {
    one.square_metres = square_metres;
    const Plan plan = plan_of(request(one, start, start + hours(400), zone()), air);
    REQUIRE(plan.complete);
    const auto wipes = of_kind(plan, StepKind::kWipe);
    // 3 min/m2 on and 3 off: 1 m2 is wiped at once, 5.5 m2 not within 15 minutes.
    const auto of_stain = std::count_if(
        wipes.begin(), wipes.end(), [](const PlanStep* step) { return step->coat == 1; });
    CHECK(of_stain == (square_metres < 2.0 ? 1 : 2));
  }
}

TEST_CASE("The sections hold in the air in which the stain goes on, not of the night before",
          "[plan]") {
  // Cool when the sanding ends, hot when the shop opens for the stain: its window is short then.
  const Time start = at("2027-06-07T22:00:00-04:00");
  const Schedule schedule =
      schedule_of({sanding({"P120"}), coats("oil-wiping-stain", Method::kWipe, 1)});
  Asked one;
  one.square_metres = 4.8;
  one.week = "Mon 22:00-23:00; Tue-Fri 13:00-17:00";
  PlanRequest all = request(one, start, start + hours(100), zone());
  all.piece.schedule = &schedule;
  const AirRecord air =
      usual_air("8:00 13C 50%; 12:30 30C 40%; 17:00 30C 40%; 20:00 13C 50%", zone());
  CHECK(plan_of(all, air).complete);
}

TEST_CASE("Hours too short for a coat in one go are named as the reason", "[plan]") {
  const Schedule lacquer = schedule_of({coats("nitrocellulose-lacquer-spray", Method::kSpray, 1)});
  Asked one;
  one.square_metres = 2.0;
  one.week = "Mon-Sun 12:00-12:20";  // set-up and clean-up of the gun alone take 25 minutes
  PlanRequest all =
      request(one, at("2027-06-07T08:00:00-04:00"), at("2027-06-21T08:00:00-04:00"), zone());
  all.piece.schedule = &lacquer;
  const Plan plan = plan_of(all, constant_air(20, 45, zone()));
  CHECK_FALSE(plan.complete);
  CHECK_FALSE(plan.finish);
  CHECK_THAT(reasons(plan), Contains("no opening of the shop is that long"));
}

TEST_CASE("The night when the clocks change is reckoned in real hours", "[plan]") {
  // From Saturday 18:00 to Sunday 8:00 are 13 hours in spring and 15 in autumn.
  const Schedule schedule = schedule_of({coats("oil-wiping-stain", Method::kWipe, 2)});
  const auto night = [&](const char* from, const char* to) {
    PlanRequest all = request({}, at(from), at(to) + hours(60), zone());
    all.piece.schedule = &schedule;
    all.confidence = 0.5;
    all.hours = {{at(from), at(from) + hours(2)}, {at(to), at(to) + hours(60)}};
    const AirRecord air = constant_air(23, 50, zone());
    const Plan plan = plan_of(all, air);
    REQUIRE(plan.complete);
    const PlanStep& second = first_of(plan, StepKind::kApply, 2);
    const Wait& wait = second.after.front();
    CHECK(wait.earned.hours() == Approx(hours_between(wait.since, second.start)).margin(0.001));
    // Needed are sqrt(12 * 24) hours: 16.97 hours of real time.
    return hours_between(at(from), at(to));
  };
  CHECK(night("2027-03-13T18:00:00-05:00", "2027-03-14T08:00:00-04:00") == Approx(13.0));
  CHECK(night("2027-11-06T18:00:00-04:00", "2027-11-07T08:00:00-05:00") == Approx(15.0));
}

TEST_CASE("Weekly hours and drying agree over both nights of changed clocks", "[plan]") {
  const Schedule schedule = schedule_of({coats("oil-wiping-stain", Method::kWipe, 2)});
  const AirRecord air = constant_air(23, 50, zone());
  const auto second_coat = [&](const char* from) {
    Asked one;
    one.week = "Sat-Sun 0:00-24:00";
    one.confidence = 0.5;
    PlanRequest all = request(one, at(from), at(from) + hours(60), zone());
    all.piece.schedule = &schedule;
    const Plan plan = plan_of(all, air);
    REQUIRE(plan.complete);
    return show_clock(first_of(plan, StepKind::kApply, 2).start, zone());
  };
  // The same real hours later the wall clock shows two hours less in autumn than in spring.
  const std::string spring = second_coat("2027-03-13T18:00:00-05:00");
  const std::string autumn = second_coat("2027-11-06T18:00:00-04:00");
  CHECK(std::stoi(spring) - std::stoi(autumn) == 2);
  CHECK(spring.substr(3) == autumn.substr(3));
}

// Consistency check: how surely the date is met does not hang on how surely the waits are taken.
TEST_CASE("The chance of a date is the same at whatever confidence a plan is made", "[plan]") {
  const Time start = at("2027-06-07T08:00:00-04:00");
  const Time by = at("2027-06-08T15:00:00-04:00");
  const AirRecord air = constant_air(20, 45, zone());
  Asked one;
  one.schedule = "hardwax-oil";
  std::optional<double> chance;
  for (const double confidence : {0.6, 0.9, 0.95}) {
    one.confidence = confidence;
    const auto plan = make_plan(request(one, start, by, zone()), book(), air);
    REQUIRE(plan);
    INFO("confidence " << confidence << ", fits " << plan->fits);
    CHECK((plan->chance >= confidence - 0.01) == plan->fits);
    CHECK(plan->chance == Approx(chance.value_or(plan->chance)).margin(0.01));
    chance = plan->chance;
  }
}

// EVIDENCE: common-practice, no source: a film that is not yet hard clogs the paper and tears
// EVIDENCE: iso_6344 mean sizes of P80 and P180; that such a jump is a skip is common practice
TEST_CASE("Grits that skip too far are warned of", "[plan]") {
  Schedule schedule =
      schedule_of({sanding({"P80", "P180"}), coats("dewaxed-shellac", Method::kBrush, 1)});
  const auto warned = [&] {
    const Plan plan = plan_of_coats(schedule, constant_air(21, 50, zone()));
    return std::count_if(plan.warnings.begin(), plan.warnings.end(), [](const PlanWarning& one) {
      return one.code == "grit-jump";
    });
  };
  CHECK(warned() == 1);
  schedule.steps.front().grits = {"P80", "P120", "P180"};
  CHECK(warned() == 0);
}

TEST_CASE("A coat is not sanded before it can be sanded", "[plan]") {
  const Schedule schedule =
      schedule_of({coats("oil-modified-varnish", Method::kBrush, 1), sanding({"P320"})});
  const Plan plan = plan_of_coats(schedule, constant_air(23, 50, zone()));
  REQUIRE(plan.complete);
  // Dust-free after 3 hours, sandable after 24.
  CHECK(hours_between(first_of(plan, StepKind::kApply, 1).end,
                      of_kind(plan, StepKind::kSand).front()->start) >= 24.0);
}
