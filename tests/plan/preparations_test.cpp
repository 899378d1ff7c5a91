#include "plan/preparations.h"

#include <catch2/catch.hpp>

#include "plan/plan_checker.h"
#include "plan/plan_logs.h"
#include "plan/plan_requests.h"

using namespace coatwright;
using namespace asked;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

namespace {

const Time kStart = at("2027-06-07T08:00:00-04:00");  // a Monday
const AirRecord& air() {
  static const AirRecord constant = constant_air(22.0, 45.0, zone());
  return constant;
}

Schedule shellac_after(const std::string& first) {
  return schedule_of({coats(first, Method::kWipe, 1), coats("dewaxed-shellac", Method::kPad, 2)});
}

PlanRequest request_for(const Schedule& schedule, const std::string& week) {
  Asked one;
  one.week = week;
  PlanRequest made = request(one, kStart, kStart + hours(24 * 14), zone());
  made.piece.schedule = &schedule;
  return made;
}

Plan planned(const PlanRequest& asked) {
  const auto plan = make_plan(asked, book(), air());
  REQUIRE(plan);
  for (const std::string& fault : own::PlanChecker(*plan, asked, book(), air()).faults()) {
    INFO(fault);
    CHECK(false);
  }
  return *plan;
}

const PlanPreparation& of_case(const Plan& plan, PreparationCase when) {
  const auto found = std::find_if(plan.preparations.begin(),
                                  plan.preparations.end(),
                                  [&](const auto& one) { return one.when == when; });
  REQUIRE(found != plan.preparations.end());
  return *found;
}

Time first_coat(const Plan& plan, const std::string& product) {
  for (const PlanStep& step : plan.steps) {
    if (step.kind == StepKind::kApply && step.product == product) {
      return step.start;
    }
  }
  FAIL("no such coat");
  return {};
}

const Preparation& flakes() {
  for (const Preparation& one : (**book().product("dewaxed-shellac")).preparations) {
    if (one.when == PreparationCase::kFlakes) {
      return one;
    }
  }
  FAIL("shellac is dissolved from flakes");
  return (**book().product("dewaxed-shellac")).preparations.front();
}

}  // namespace

// EVIDENCE: common-practice: flakes take a day, from half a day to two, until they are dissolved
TEST_CASE("Flakes are dissolved a day or two before the shellac is wanted", "[plan]") {
  CHECK(flakes().lead.low() >= Hours::from_hours(6));
  CHECK(flakes().lead.high() >= Hours::from_hours(18));
  CHECK(flakes().lead.high() <= Hours::from_hours(72));
  // Linseed oil first, which takes days: the flakes are begun while somebody is there.
  const Schedule schedule = shellac_after("oil-wiping-stain");
  PlanRequest asked = request_for(schedule, "Mon-Fri 8:00-17:00");
  const Plan plan = planned(asked);
  REQUIRE(plan.complete);
  const PlanPreparation& order = of_case(plan, PreparationCase::kFlakes);
  CHECK(order.products == std::vector<std::string>{"dewaxed-shellac"});
  const Time ready_at = order.begin_by + seconds(std::llround(flakes().minutes * 60.0)) +
                        seconds(std::llround(flakes().lead.high().hours() * 3600.0));
  CHECK(ready_at <= first_coat(plan, "dewaxed-shellac"));
}

TEST_CASE("What is begun by is inside an opening early enough, or before the plan", "[plan]") {
  const Schedule late = schedule_of({
      coats("boiled-linseed-oil", Method::kWipe, 2),
      coats("paste-wax", Method::kWipe, 1),
  });
  const Schedule shellac = shellac_after("boiled-linseed-oil");
  for (const Schedule* schedule : {&late, &shellac}) {
    for (const char* week : {"Mon-Fri 8:00-17:00",
                             "Mon-Sun 8:00-12:00, 13:00-17:00",
                             "Tue 18:00-21:00; Sat 9:00-18:00"}) {
      const PlanRequest asked = request_for(*schedule, week);
      const auto made = make_plan(asked, book(), air());
      if (!made) {
        continue;  // oil under shellac may be refused; the walk below wants plans
      }
      INFO(week);
      const Plan plan = planned(asked);
      for (const PlanPreparation& one : plan.preparations) {
        bool inside = false;
        for (const Interval& opening : asked.hours) {
          inside = inside || (one.begin_by >= opening.start && one.begin_by < opening.end);
        }
        CHECK((inside || one.begin_by < asked.hours.front().start));
      }
    }
  }
}

TEST_CASE("With a first coat at once, the preparation lies before the plan", "[plan]") {
  const Schedule schedule = schedule_of({coats("dewaxed-shellac", Method::kPad, 2)});
  const PlanRequest asked = request_for(schedule, "Mon-Sun 8:00-17:00");
  const Plan plan = planned(asked);
  REQUIRE(plan.complete);
  const PlanPreparation& order = of_case(plan, PreparationCase::kFlakes);
  CHECK(order.begin_by < asked.from);
  // Nobody is known to be there then: it is the plain difference.
  CHECK(order.begin_by == first_coat(plan, "dewaxed-shellac") -
                              seconds(std::llround(flakes().lead.high().hours() * 3600.0)) -
                              seconds(std::llround(flakes().minutes * 60.0)));
}

TEST_CASE("What is at hand already is not prepared again", "[plan]") {
  const Schedule schedule = schedule_of({coats("dewaxed-shellac", Method::kPad, 3)});
  PlanRequest asked = request_for(schedule, "Mon-Sun 8:00-17:00");
  CHECK_FALSE(planned(asked).preparations.empty());
  asked.piece.log = {coated("dewaxed-shellac", kStart + hours(1))};
  asked.from = kStart + hours(2);
  CHECK(planned(asked).preparations.empty());
}

TEST_CASE("One order serves several products, by the earliest", "[plan]") {
  const Schedule schedule = schedule_of({coats("nitrocellulose-sanding-sealer", Method::kSpray, 1),
                                         abrading("P320"),
                                         coats("nitrocellulose-lacquer-spray", Method::kSpray, 2)});
  const Plan plan = planned(request_for(schedule, "Mon-Sun 8:00-17:00"));
  REQUIRE(plan.complete);
  for (const PlanPreparation& one : plan.preparations) {
    CHECK(one.products.size() == one.product_titles.size());
    for (const PlanPreparation& other : plan.preparations) {
      CHECK((&one == &other || one.text != other.text || one.when != other.when));
    }
  }
  CHECK(std::is_sorted(plan.preparations.begin(),
                       plan.preparations.end(),
                       [](const auto& a, const auto& b) { return a.begin_by < b.begin_by; }));
}
