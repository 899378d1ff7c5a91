#include "plan/plan_checker.h"

#include <functional>

#include <catch2/catch.hpp>

#include "plan/plan_logs.h"
#include "plan/plan_requests.h"

using namespace coatwright;
using namespace asked;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

namespace {

struct Sound {
  PlanRequest request;
  AirRecord air;
  Plan plan;
};

Sound sound_plan(const std::string& schedule, Faces faces) {
  Asked one;
  one.schedule = schedule;
  one.faces = faces;
  const Time start = at("2027-06-07T08:00:00-04:00");
  Sound sound{request(one, start, start + hours(24 * 20), zone()),
              usual_air("6:00 17C 50%; 14:00 22C 40%; 22:00 18C 45%", zone()),
              {}};
  sound.plan = *make_plan(sound.request, book(), sound.air);
  return sound;
}

PlanStep& step_of(Plan& plan, StepKind kind) {
  for (PlanStep& step : plan.steps) {
    if (step.kind == kind) {
      return step;
    }
  }
  FAIL("the plan has no such step");
  return plan.steps.front();
}

bool found(const Sound& sound, const std::function<void(Plan&)>& spoil) {
  Plan plan = sound.plan;
  spoil(plan);
  return !own::PlanChecker(plan, sound.request, book(), sound.air).faults().empty();
}

void shift(PlanStep& step, seconds by) {
  step.start += by;
  step.end += by;
}

}  // namespace

// The checker is the judge of other tests: it must find each kind of fault.
TEST_CASE("The second reckoning finds what is wrong with a spoiled plan", "[plan]") {
  const Sound stain = sound_plan("stain-and-lacquer", Faces::kOne);
  REQUIRE(stain.plan.complete);
  CHECK_FALSE(found(stain, [](Plan&) {}));
  CHECK(found(stain, [](Plan& plan) { shift(step_of(plan, StepKind::kWipe), minutes(20)); }));
  CHECK(found(stain, [](Plan& plan) { shift(step_of(plan, StepKind::kWipe), -minutes(3)); }));
  CHECK(found(stain, [](Plan& plan) { shift(step_of(plan, StepKind::kRags), minutes(1)); }));
  CHECK(found(stain, [](Plan& plan) { shift(step_of(plan, StepKind::kAbrade), -minutes(60)); }));
  CHECK(found(stain, [](Plan& plan) { shift(step_of(plan, StepKind::kSand), -hours(8)); }));
  CHECK(found(stain, [](Plan& plan) { shift(plan.steps.back(), hours(9)); }));
  CHECK(found(stain, [](Plan& plan) { *plan.finish += minutes(5); }));
  CHECK(found(stain, [](Plan& plan) { *plan.bound = *plan.finish + minutes(5); }));
  CHECK(found(stain, [](Plan& plan) { plan.fits = !plan.fits; }));
  CHECK(found(stain, [](Plan& plan) { plan.chance = 0.3; }));
  CHECK(found(stain, [](Plan& plan) { std::swap(plan.milestones[0], plan.milestones[1]); }));
  CHECK(found(stain, [](Plan& plan) { plan.quantities[0].amount = Volume::from_litres(9); }));
  CHECK(found(stain, [](Plan& plan) { plan.quantities.pop_back(); }));
  CHECK(found(stain, [](Plan& plan) { step_of(plan, StepKind::kApply).coat = 2; }));
}

TEST_CASE("The second reckoning finds what is wrong with a spoiled wait", "[plan]") {
  const Sound varnish = sound_plan("stain-and-wiping-varnish", Faces::kTwo);
  REQUIRE(varnish.plan.complete);
  CHECK_FALSE(found(varnish, [](Plan&) {}));
  const auto spoiled = [&](const std::function<void(Wait&)>& spoil) {
    return found(varnish, [&](Plan& plan) {
      for (PlanStep& step : plan.steps) {
        if (step.kind == StepKind::kApply && step.coat == 2) {
          spoil(step.after.front());
          return;
        }
      }
    });
  };
  CHECK(spoiled([](Wait& wait) { wait.opens_at += minutes(4); }));
  CHECK(spoiled([](Wait& wait) { wait.earned = wait.earned + Hours::from_hours(0.1); }));
  CHECK(spoiled([](Wait& wait) { wait.needed = wait.needed * 0.99; }));
  CHECK(spoiled([](Wait& wait) { wait.since += minutes(10); }));
  CHECK(spoiled([](Wait& wait) { wait.gate.reset(); }));
  CHECK(
      found(varnish, [](Plan& plan) { step_of(plan, StepKind::kFlip).kind = StepKind::kInspect; }));
  CHECK(found(varnish, [](Plan& plan) { shift(step_of(plan, StepKind::kFlip), -hours(20)); }));
}

namespace {

/// A plan that goes on from a stain whose wiping and rags are still open.
Sound sound_rest() {
  Sound sound = sound_plan("stain-and-lacquer", Faces::kOnPoints);
  const Time stained = at("2027-06-07T18:00:00-04:00");
  sound.request.piece.log = {sanded("P180", stained - hours(1), {0, 1}),
                             coated("oil-wiping-stain", stained, {0, 1})};
  sound.request.from = stained + minutes(1);
  sound.plan = *make_plan(sound.request, book(), sound.air);
  return sound;
}

}  // namespace

TEST_CASE("The second reckoning finds what is wrong with a plan that goes on", "[plan]") {
  const Sound rest = sound_rest();
  REQUIRE(rest.plan.complete);
  REQUIRE(rest.plan.steps.at(2).kind == StepKind::kWipe);
  REQUIRE(rest.plan.steps.at(3).kind == StepKind::kRags);
  CHECK_FALSE(found(rest, [](Plan&) {}));
  const auto erased = [](std::ptrdiff_t place) {
    return [place](Plan& plan) { plan.steps.erase(plan.steps.begin() + place); };
  };
  CHECK(found(rest, erased(0)));
  CHECK(found(rest, erased(2)));
  CHECK(found(rest, erased(3)));
  CHECK(found(rest, [](Plan& plan) { plan.steps[0].grit = "P150"; }));
  CHECK(found(rest, [](Plan& plan) { shift(plan.steps[1], minutes(1)); }));
  CHECK(found(rest, [](Plan& plan) { plan.steps[1].coat = 2; }));
  CHECK(found(rest, [](Plan& plan) { plan.steps[1].done = false; }));
  CHECK(found(rest, [](Plan& plan) { plan.steps[2].done = true; }));
  CHECK(found(rest, [](Plan& plan) { shift(plan.steps[2], minutes(1)); }));
  CHECK(found(rest, [](Plan& plan) { shift(plan.steps[3], minutes(1)); }));
  CHECK(found(rest, [](Plan& plan) { plan.steps[2].face = "back"; }));
  // Only what the log left open may lie outside the shop's hours.
  CHECK(found(rest, [](Plan& plan) { shift(step_of(plan, StepKind::kClean), -hours(12)); }));
  CHECK(found(rest, [](Plan& plan) {
    PlanStep again = plan.steps[1];
    again.done = false;
    again.start = plan.steps[5].start;
    again.end = plan.steps[5].end;
    plan.steps.insert(plan.steps.begin() + 5, again);
  }));
  CHECK(found(rest, [](Plan& plan) {
    plan.quantities.push_back({"oil-wiping-stain", "", Volume::from_litres(0.2), ""});
  }));
  const auto first_wait = [](Plan& plan) -> Wait& {
    for (PlanStep& step : plan.steps) {
      if (step.kind == StepKind::kApply && !step.done) {
        return step.after.front();
      }
    }
    FAIL("no coat is left");
    return plan.steps.front().after.front();
  };
  CHECK(found(rest, [&](Plan& plan) { first_wait(plan).since = plan.steps[1].start; }));
  CHECK(found(rest, [&](Plan& plan) { first_wait(plan).step = 1; }));
}

namespace {

/// Every spoiling is found, and the plan as it is has no fault.
void check_found(const Sound& sound, const std::vector<std::function<void(Plan&)>>& spoilings) {
  REQUIRE(sound.plan.complete);
  CHECK_FALSE(found(sound, [](Plan&) {}));
  for (std::size_t i = 0; i < spoilings.size(); ++i) {
    INFO("spoiling " << i);
    CHECK(found(sound, spoilings[i]));
  }
}

Sound sound_on(const std::string& schedule, const std::string& species, double square_metres) {
  Asked one;
  one.square_metres = square_metres;
  const Time start = at("2027-06-07T08:00:00-04:00");
  Sound sound{
      request(one, start, start + hours(24 * 60), zone()), constant_air(24.0, 40.0, zone()), {}};
  sound.request.piece.species = *book().species(species);
  sound.request.piece.schedule =
      *book().schedule_for(schedule, {*book().species(species), {}, nullptr});
  sound.plan = *make_plan(sound.request, book(), sound.air);
  return sound;
}

void erase_first(Plan& plan, StepKind kind) {
  plan.steps.erase(std::find_if(plan.steps.begin(), plan.steps.end(), [&](const PlanStep& step) {
    return step.kind == kind;
  }));
}

}  // namespace

TEST_CASE("The second reckoning finds spoiled mixes, washes and rubbings", "[plan]") {
  check_found(sound_on("epoxy-sealed-varnish", "white-oak", 8.0),
              {[](Plan& plan) { erase_first(plan, StepKind::kMix); },
               [](Plan& plan) { shift(step_of(plan, StepKind::kMix), -minutes(20)); },
               [](Plan& plan) { erase_first(plan, StepKind::kApply); },
               [](Plan& plan) { step_of(plan, StepKind::kAbrade).grit = "P120"; },
               [](Plan& plan) { erase_first(plan, StepKind::kAbrade); },
               [](Plan& plan) { plan.preparations.pop_back(); },
               [](Plan& plan) { plan.preparations.front().begin_by += minutes(10); }});
  check_found(sound_on("oily-wood-varnish", "teak", 1.0),
              {[](Plan& plan) { erase_first(plan, StepKind::kWash); },
               [](Plan& plan) { shift(step_of(plan, StepKind::kWash), minutes(5)); },
               [](Plan& plan) { erase_first(plan, StepKind::kSand); }});
  check_found(sound_on("rubbed-varnish", "black-walnut", 1.0),
              {[](Plan& plan) { shift(step_of(plan, StepKind::kRubOut), -hours(24)); },
               [](Plan& plan) { erase_first(plan, StepKind::kRubOut); },
               [](Plan& plan) { step_of(plan, StepKind::kRubOut).grit = ""; }});
}
