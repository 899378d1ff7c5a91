#include "plan/plan_changes.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "plan/plan_logs.h"
#include "plan/plan_requests.h"

using namespace coatwright;
using namespace asked;
using std::chrono::hours;
using std::chrono::minutes;

namespace {

const Time kDay = at("2027-06-07T08:00:00Z");

PlanStep step(StepKind kind, int minute, const std::string& face = "") {
  PlanStep step;
  step.kind = kind;
  step.face = face;
  step.start = kDay + minutes(minute);
  step.end = step.start + minutes(10);
  return step;
}

PlanStep coat(int number, int minute, const std::string& face = "") {
  PlanStep one = step(StepKind::kApply, minute, face);
  one.product = "shellac";
  one.product_title = "Shellac";
  one.coat = number;
  return one;
}

/// As a plan has it: with the coat that it is for.
PlanStep abrading(int number, int minute, const std::string& face = "") {
  PlanStep one = coat(number, minute, face);
  one.kind = StepKind::kAbrade;
  one.grit = "P320";
  return one;
}

PlanStep grit(StepKind kind, const std::string& grade, int minute, const std::string& face = "") {
  PlanStep one = step(kind, minute, face);
  one.grit = grade;
  return one;
}

PlanStep done(PlanStep one) {
  one.done = true;
  return one;
}

Plan plan_of(std::vector<PlanStep> steps, int made_minute = 0) {
  Plan plan;
  plan.made_at = kDay + minutes(made_minute);
  plan.steps = std::move(steps);
  if (!plan.steps.empty()) {
    plan.finish = plan.steps.back().end;
  }
  return plan;
}

std::string minute_of(const std::optional<Time>& time) {
  return time ? std::to_string((*time - kDay).count() / 60) : "-";
}

using Words = std::vector<std::string>;

/// "apply 2 front: 30 > 60" ...
Words moved(const Plan& before, const Plan& now) {
  Words words;
  for (const PlanChange& change : changes_since(kept_plan_of(before), now).steps) {
    words.push_back(fmt::format("{} {}{}{}: {} > {}",
                                name_of(change.kind),
                                change.coat,
                                change.face.empty() ? "" : " " + change.face,
                                change.grit.empty() ? "" : " " + change.grit,
                                minute_of(change.was),
                                minute_of(change.is)));
  }
  return words;
}

}  // namespace

TEST_CASE("A plan is kept with the steps that a maker's day hangs on", "[plan]") {
  const Plan plan = plan_of({done(step(StepKind::kSample, -60)),
                             grit(StepKind::kSand, "P150", 0),
                             grit(StepKind::kRaiseGrain, "P220", 10),
                             step(StepKind::kClean, 20),
                             step(StepKind::kMix, 25),
                             coat(1, 30),
                             step(StepKind::kWipe, 40),
                             step(StepKind::kRags, 50),
                             step(StepKind::kWait, 60),
                             abrading(2, 90),
                             step(StepKind::kFlip, 100, "front")},
                            7);
  const KeptPlan kept = kept_plan_of(plan);
  CHECK(kept.made_at == plan.made_at);
  CHECK(kept.finish == plan.finish);
  Words kinds;
  for (const KeptStep& one : kept.steps) {
    kinds.emplace_back(name_of(one.kind));
  }
  CHECK(kinds == Words{"sand", "raise_grain", "apply", "abrade", "flip"});
  CHECK(kept.steps[2].product == "shellac");
  CHECK(kept.steps[2].product_title == "Shellac");
  CHECK(kept.steps[2].coat == 1);
  CHECK(kept.steps[2].start == kDay + minutes(30));
  CHECK(kept.steps[3].grit == "P320");
  CHECK(kept.steps[4].face == "front");
}

TEST_CASE("What moved by five minutes or more is said, by its time now", "[plan]") {
  const Plan before = plan_of({coat(1, 0), coat(2, 60), coat(3, 120)});
  CHECK(moved(before, before).empty());
  CHECK(moved(before, plan_of({coat(1, 4), coat(2, 56), coat(3, 120)})).empty());
  CHECK(moved(before, plan_of({coat(1, 5), coat(2, 55), coat(3, 120)})) ==
        Words{"apply 1: 0 > 5", "apply 2: 60 > 55"});
  CHECK(moved(before, plan_of({coat(1, 0), coat(2, 90), coat(3, 200)})) ==
        Words{"apply 2: 60 > 90", "apply 3: 120 > 200"});
}

TEST_CASE("The changes carry when the plan before was made and ended", "[plan]") {
  const Plan before = plan_of({coat(1, 0)}, -90);
  const PlanChanges changes = changes_since(kept_plan_of(before), plan_of({coat(1, 30)}));
  CHECK(changes.since == kDay - minutes(90));
  CHECK(changes.finish_was == kDay + minutes(10));
  REQUIRE(changes.steps.size() == 1);
  CHECK(changes.steps.front().product_title == "Shellac");
  CHECK_FALSE(changes_since(KeptPlan{}, before).finish_was);
}

TEST_CASE("New steps and steps that are gone are told apart, those that are gone last", "[plan]") {
  const Plan before = plan_of({grit(StepKind::kSand, "P120", 0), coat(1, 60), coat(2, 120)});
  const Plan now = plan_of({coat(1, 60), abrading(2, 110), coat(2, 130), coat(3, 300)});
  CHECK(moved(before, now) == Words{"abrade 2 P320: - > 110",
                                    "apply 2: 120 > 130",
                                    "apply 3: - > 300",
                                    "sand 0 P120: 0 > -"});
  // The same coat of another product, or on the other face, is another step.
  PlanStep varnish = coat(1, 60);
  varnish.product = "varnish";
  CHECK(moved(plan_of({coat(1, 60)}), plan_of({varnish})) ==
        Words{"apply 1: - > 60", "apply 1: 60 > -"});
  CHECK(moved(plan_of({coat(1, 60, "back")}), plan_of({coat(1, 60, "front")})) ==
        Words{"apply 1 front: - > 60", "apply 1 back: 60 > -"});
}

TEST_CASE("What was done meanwhile neither moved nor is it gone", "[plan]") {
  const Plan before = plan_of({step(StepKind::kSample, 0),
                               grit(StepKind::kSand, "P150", 10),
                               grit(StepKind::kRaiseGrain, "P220", 20),
                               coat(1, 60),
                               abrading(2, 110),
                               coat(2, 120)});
  // Hours later than planned; what the log need not say, it leaves out.
  PlanStep abraded = done(step(StepKind::kAbrade, 700));
  abraded.coat = 2;
  const Plan now = plan_of({done(step(StepKind::kSample, 400)),
                            done(grit(StepKind::kSand, "P150", 410)),
                            done(step(StepKind::kRaiseGrain, 420)),
                            done(coat(1, 500)),
                            abraded,
                            coat(2, 800)});
  CHECK(moved(before, now) == Words{"apply 2: 120 > 800"});
}

TEST_CASE("Done on both faces covers what was planned on each, and the other way round", "[plan]") {
  const Plan flat = plan_of({coat(1, 0, "back"), coat(1, 60, "front"), coat(2, 120, "back")});
  CHECK(moved(flat, plan_of({done(coat(1, 30, "both")), coat(2, 120, "back")})).empty());
  const Plan points = plan_of({coat(1, 0, "both"), coat(2, 120, "both")});
  CHECK(moved(points,
              plan_of({done(coat(1, 0, "back")), done(coat(1, 20, "front")), coat(2, 120, "both")}))
            .empty());
}

TEST_CASE("A coat in sections is one", "[plan]") {
  const Plan before = plan_of({coat(1, 0),
                               step(StepKind::kWipe, 10),
                               coat(1, 20),
                               step(StepKind::kWipe, 30),
                               coat(2, 100)});
  CHECK(kept_plan_of(before).steps.size() == 2);
  CHECK(moved(before, plan_of({coat(1, 0), step(StepKind::kWipe, 10), coat(2, 100)})).empty());
  CHECK(moved(before, plan_of({done(coat(1, 25)), coat(2, 130)})) == Words{"apply 2: 100 > 130"});
}

TEST_CASE("Of steps that are alike the first are done, and the others keep their places",
          "[plan]") {
  const auto flip = [](int minute, const std::string& face) {
    return step(StepKind::kFlip, minute, face);
  };
  const Plan before = plan_of({flip(50, "front"),
                               coat(1, 60, "front"),
                               flip(110, "back"),
                               coat(2, 120, "back"),
                               flip(170, "front"),
                               coat(2, 180, "front")});
  // Turned over once, as a log says it that names no face.
  CHECK(moved(before,
              plan_of({done(flip(50, "both")),
                       done(coat(1, 60, "front")),
                       flip(110, "back"),
                       coat(2, 120, "back"),
                       flip(170, "front"),
                       coat(2, 180, "front")}))
            .empty());
  // Once more than planned: the new one is the one that is said.
  CHECK(moved(plan_of({flip(110, "front"), coat(2, 120, "front")}),
              plan_of({flip(10, "front"), flip(110, "front"), coat(2, 120, "front")})) ==
        Words{"flip 0 front: - > 10"});
  // Once less, and none was logged.
  CHECK(moved(before,
              plan_of({coat(1, 60, "front"),
                       flip(110, "back"),
                       coat(2, 120, "back"),
                       flip(170, "front"),
                       coat(2, 180, "front")})) == Words{"flip 0 front: 50 > -"});
}

TEST_CASE("Of a piece that is done nothing moved", "[plan]") {
  Asked one;
  one.schedule = "hardwax-oil";
  PlanRequest whole = request(one, kDay, kDay + hours(400), zone());
  const AirRecord air = constant_air(20, 45, zone());
  const auto before = make_plan(whole, book(), air);
  REQUIRE(before);
  whole.piece.log = log_of(*before, before->steps.size());
  whole.from = *before->finish + hours(1);
  const auto now = make_plan(whole, book(), air);
  REQUIRE(now);
  CHECK(changes_since(kept_plan_of(*before), *now).steps.empty());
  CHECK(kept_plan_of(*now).steps.empty());
}
