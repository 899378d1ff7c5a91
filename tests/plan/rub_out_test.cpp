#include <catch2/catch.hpp>

#include "plan/own_drying.h"
#include "plan/plan_changes.h"
#include "plan/plan_checker.h"
#include "plan/plan_logs.h"
#include "plan/plan_requests.h"
#include "plan/what_now.h"

using namespace coatwright;
using namespace asked;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

namespace {

ScheduleStep rubbing_out(std::vector<std::string> grits, double low, double high) {
  ScheduleStep step;
  step.kind = ScheduleStepKind::kRubOut;
  step.grits = std::move(grits);
  step.waits = DurationRange(Hours::from_hours(low), Hours::from_hours(high));
  step.source = "judgement";
  return step;
}

struct Case {
  PlanRequest request;
  AirRecord air;
};

Case case_of(const Schedule& schedule, Faces faces, const std::string& day) {
  Asked one;
  one.faces = faces;
  one.week = "Mon-Fri 8:00-17:00; Sat 9:00-13:00";
  const Time start = at("2027-06-07T08:00:00-04:00");
  Case made{request(one, start, start + hours(24 * 60), zone()), usual_air(day, zone())};
  made.request.piece.schedule = &schedule;
  return made;
}

Plan planned(const Case& one) {
  const auto plan = make_plan(one.request, book(), one.air);
  REQUIRE(plan);
  for (const std::string& fault : own::PlanChecker(*plan, one.request, book(), one.air).faults()) {
    INFO(fault);
    CHECK(false);
  }
  return *plan;
}

/// A short wait, so that plans stay short.
const Schedule& lacquer() {
  static const Schedule schedule =
      schedule_of({sanding({"P150", "P180"}),
                   coats("nitrocellulose-lacquer-spray", Method::kSpray, 2),
                   rubbing_out({"P600", "P800"}, 48.0, 96.0)});
  return schedule;
}

std::vector<std::string> grits_of(const Plan& plan, bool done) {
  std::vector<std::string> grits;
  for (const PlanStep* step : of_kind(plan, StepKind::kRubOut)) {
    if (step->done == done) {
      grits.push_back(step->grit);
    }
  }
  return grits;
}

Time last_stroke(const Plan& plan) {
  return of_kind(plan, StepKind::kApply).back()->end;
}

LoggedWork rubbed(const std::string& grit, Time at, std::vector<int> faces = {0}) {
  LoggedWork entry = done(StepKind::kRubOut, at, std::move(faces));
  entry.grit = grit;
  return entry;
}

const std::string kConstant = "0:00 23C 50%";

}  // namespace

TEST_CASE("Rubbing out waits for its hours, then goes through its grits to the polish", "[plan]") {
  for (const Faces faces : {Faces::kOne, Faces::kTwo, Faces::kOnPoints}) {
    const Case one = case_of(lacquer(), faces, kConstant);
    const Plan plan = planned(one);
    REQUIRE(plan.complete);
    CHECK(grits_of(plan, false) == std::vector<std::string>{"P600", "P800", ""});
    const auto steps = of_kind(plan, StepKind::kRubOut);
    CHECK(steps.back() == &plan.steps.back());
    CHECK(*plan.finish == steps.back()->end);
    // At the reference every hour counts: the wait at 90 % is its high end.
    const Time opens = last_stroke(plan) + hours(96);
    CHECK(steps.front()->start >= opens - minutes(1));
    // And not later than the shop's hours ask: the first opening after it.
    Time first = opens;
    for (auto opening = one.request.hours.rbegin(); opening != one.request.hours.rend();
         ++opening) {
      const Time start = std::max(opening->start, opens);
      first = start + (steps.front()->end - steps.front()->start) <= opening->end ? start : first;
    }
    CHECK(steps.front()->start - first < minutes(6));
    for (const PlanStep* step : steps) {
      REQUIRE_FALSE(step->after.empty());
      CHECK(step->after.front().stage == "rub-out");
      CHECK(step->after.front().source == "judgement");
    }
  }
}

TEST_CASE("Cold air keeps a film from being rubbed out as it keeps it from drying", "[plan]") {
  const Case warm = case_of(lacquer(), Faces::kOne, kConstant);
  const Case cool = case_of(lacquer(), Faces::kOne, "0:00 18C 50%");
  const Plan early = planned(warm);
  const Plan late = planned(cool);
  const auto wait_of = [](const Plan& plan) -> const Wait& {
    return of_kind(plan, StepKind::kRubOut).front()->after.front();
  };
  const double factor = own::rate(wait_of(late).phases.front().law, 291.15, 0.5);
  CHECK(factor < 0.9);
  const auto hours_of = [&](const Plan& plan) {
    return static_cast<double>((wait_of(plan).opens_at - last_stroke(plan)).count()) / 3600.0;
  };
  CHECK(hours_of(early) == Approx(96.0).margin(0.05));
  CHECK(hours_of(late) == Approx(96.0 / factor).margin(0.2));
}

// EVIDENCE: common-practice: weeks for varnish, days for what dries by evaporation
TEST_CASE("Built-in schedules rub out after the wait of the sanding table", "[plan]") {
  int seen = 0;
  for (const std::string& name : book().schedule_names()) {
    const auto schedule = book().schedule_for(name, {*book().species("black-walnut"), {}, {}});
    if (!schedule) {
      continue;
    }
    const auto rub_out = std::find_if(
        (**schedule).steps.begin(), (**schedule).steps.end(), [](const ScheduleStep& step) {
          return step.kind == ScheduleStepKind::kRubOut;
        });
    if (rub_out == (**schedule).steps.end()) {
      continue;
    }
    ++seen;
    INFO(name);
    const Case one = case_of(**schedule, Faces::kOne, kConstant);
    const Plan plan = planned(one);
    REQUIRE(plan.complete);
    const auto steps = of_kind(plan, StepKind::kRubOut);
    const Product& last = **book().product(of_kind(plan, StepKind::kApply).back()->product);
    // The table as it stands in the recipes, typed once more.
    const hours wait = last.layer == "oil-varnish" ? hours(720) : hours(336);
    CHECK(steps.front()->start >= last_stroke(plan) + wait - minutes(2));
    CHECK(steps.front()->start < last_stroke(plan) + wait + hours(24 * 3));
    CHECK(steps.size() == rub_out->grits.size() + 1);
    CHECK(steps.back()->grit.empty());
  }
  CHECK(seen >= 2);
}

TEST_CASE("Without a wait of its own a film is rubbed out when it has cured", "[plan]") {
  Schedule schedule = lacquer();
  schedule.steps.back().waits.reset();
  const Case one = case_of(schedule, Faces::kOne, kConstant);
  const Plan plan = planned(one);
  REQUIRE(plan.complete);
  const Product& last = **book().product("nitrocellulose-lacquer-spray");
  double whole = 0.0;
  for (const Phase& phase : last.stage(Stage::kFullCure)->timing.phases) {
    whole += own::quantile(phase.duration.low().hours(), phase.duration.high().hours(), 0.9);
  }
  const PlanStep& first = *of_kind(plan, StepKind::kRubOut).front();
  CHECK(first.start >= last_stroke(plan) + seconds(std::llround((whole - 0.05) * 3600.0)));
  CHECK(first.start < last_stroke(plan) + seconds(std::llround(whole * 3600.0)) + hours(72));
}

TEST_CASE("What of rubbing out is logged is not done again", "[plan]") {
  const Case fresh = case_of(lacquer(), Faces::kOne, kConstant);
  const Plan whole = planned(fresh);
  const auto steps = of_kind(whole, StepKind::kRubOut);
  const auto coated_log = log_of(whole, whole.steps.size());
  Case one = fresh;
  one.request.piece.log.clear();
  for (const LoggedWork& entry : coated_log) {
    if (entry.kind != StepKind::kRubOut) {
      one.request.piece.log.push_back(entry);
    }
  }
  const auto before = one.request.piece.log;
  const Time rubbed_at = steps[0]->end;
  one.request.from = rubbed_at + minutes(5);
  const auto left = [&](std::vector<LoggedWork> more) {
    one.request.piece.log = before;
    one.request.piece.log.insert(one.request.piece.log.end(), more.begin(), more.end());
    return grits_of(planned(one), false);
  };
  using Grits = std::vector<std::string>;
  CHECK(left({}) == Grits{"P600", "P800", ""});
  CHECK(left({rubbed("P600", rubbed_at)}) == Grits{"P800", ""});
  // A finer grit has the coarser behind it; the polish all of it.
  CHECK(left({rubbed("P800", rubbed_at)}) == Grits{""});
  CHECK(left({rubbed("", rubbed_at)}).empty());
  // A grit that the schedule does not have ticks nothing off.
  CHECK(left({rubbed("P1000", rubbed_at)}) == Grits{"P600", "P800", ""});
  // What is left out is left out alone.
  LoggedWork skipped = rubbed("P600", rubbed_at);
  skipped.left_out = true;
  CHECK(left({skipped}) == Grits{"P800", ""});
  skipped.grit = "P800";
  CHECK(left({skipped}) == Grits{"P600", ""});
  // Rubbed out to the end, the piece was finished then.
  one.request.piece.log = before;
  one.request.piece.log.push_back(rubbed("", rubbed_at));
  CHECK(planned(one).finish == rubbed_at);
}

TEST_CASE("A face that is rubbed out is left alone", "[plan]") {
  Case one = case_of(lacquer(), Faces::kOnPoints, kConstant);
  const Plan whole = planned(one);
  const auto steps = of_kind(whole, StepKind::kRubOut);
  one.request.piece.log = log_of(whole, whole.steps.size() - 3);
  one.request.from = steps[0]->end;
  one.request.piece.log.push_back(rubbed("P800", steps[0]->end, {1}));
  const Plan rest = planned(one);
  std::vector<std::string> left;
  for (const PlanStep* step : of_kind(rest, StepKind::kRubOut)) {
    if (!step->done) {
      left.push_back(step->face + " " + step->grit);
    }
  }
  CHECK(left == std::vector<std::string>{"back P600", "back P800", "both "});
}

TEST_CASE("Rubbing out goes on from its log as it was planned", "[plan]") {
  for (const Faces faces : {Faces::kOne, Faces::kTwo, Faces::kOnPoints}) {
    const Case one = case_of(lacquer(), faces, "6:00 17C 50%; 14:00 24C 40%; 22:00 19C 45%");
    const Plan whole = planned(one);
    REQUIRE(whole.complete);
    for (std::size_t i = whole.steps.size() - 4; i < whole.steps.size(); ++i) {
      if (!ends_session(whole, i)) {
        continue;
      }
      INFO("after step " << i + 1 << " of " << whole.steps.size());
      Case later = one;
      later.request.piece.log = log_of(whole, i + 1);
      later.request.from = whole.steps[i].end;
      const Plan rest = planned(later);
      CHECK(rest.finish == whole.finish);
      CHECK(changes_since(kept_plan_of(whole), rest).steps.empty());
    }
  }
}

TEST_CASE("What may be done now includes rubbing out, from its hour on", "[plan]") {
  Case one = case_of(lacquer(), Faces::kOne, kConstant);
  const Plan whole = planned(one);
  const Time stroke = last_stroke(whole);
  one.request.piece.log = log_of(whole, whole.steps.size() - 3);
  const auto asked_at = [&](Time now) {
    NowRequest request;
    request.pieces = {one.request.piece};
    request.now = now;
    const auto all = what_now(request, book(), one.air);
    REQUIRE(all);
    const auto& steps = all->front().steps;
    const auto found = std::find_if(
        steps.begin(), steps.end(), [](const StepNow& s) { return s.kind == StepKind::kRubOut; });
    REQUIRE(found != steps.end());
    return *found;
  };
  const StepNow early = asked_at(stroke + hours(30));
  CHECK(early.readiness == Readiness::kNotYet);
  CHECK(early.grit == "P600");
  REQUIRE(early.opens_at);
  CHECK(std::chrono::abs(*early.opens_at - (stroke + hours(96))) < minutes(3));
  CHECK(asked_at(stroke + hours(97)).readiness == Readiness::kMayBeDone);
  one.request.piece.log.push_back(rubbed("P600", stroke + hours(97)));
  CHECK(asked_at(stroke + hours(98)).grit == "P800");
  one.request.piece.log.push_back(rubbed("P800", stroke + hours(98)));
  CHECK(asked_at(stroke + hours(99)).grit.empty());
}

TEST_CASE("Rubbing out is not offered while a coat is still to come", "[plan]") {
  const Case one = case_of(lacquer(), Faces::kOne, kConstant);
  NowRequest request;
  request.pieces = {one.request.piece};
  const Time coated_at = one.request.from + hours(1);
  request.pieces.front().log = {coated("nitrocellulose-lacquer-spray", coated_at)};
  request.now = coated_at + hours(24 * 20);
  const auto all = what_now(request, book(), one.air);
  REQUIRE(all);
  CHECK_FALSE(all->front().steps.empty());
  for (const StepNow& step : all->front().steps) {
    CHECK(step.kind != StepKind::kRubOut);
  }
}

TEST_CASE("A coat more than the schedule has makes the wait run anew", "[plan]") {
  Case one = case_of(lacquer(), Faces::kOne, kConstant);
  const Plan whole = planned(one);
  const Time stroke = last_stroke(whole);
  one.request.piece.log = log_of(whole, whole.steps.size() - 3);
  one.request.piece.log.push_back(coated("nitrocellulose-lacquer-spray", stroke + hours(40)));
  one.request.from = stroke + hours(41);
  const Plan rest = planned(one);
  REQUIRE(rest.complete);
  for (const PlanStep* step : of_kind(rest, StepKind::kRubOut)) {
    CHECK(step->start >= stroke + hours(40 + 96) - minutes(1));
  }
}
