#include <map>
#include <set>
#include <string>

#include <catch2/catch.hpp>

#include "plan/plan_checker.h"
#include "plan/plan_requests.h"
#include "plan/random_requests.h"

using namespace coatwright;
using namespace asked;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

namespace {

/// What must be equal in two plans that are the same, with all times moved by `shift`.
std::string fingerprint(const Plan& plan, seconds shift) {
  std::string text = fmt::format("{} {} {:.6f}", plan.fits, plan.search.stopped_by, plan.chance);
  for (const PlanStep& step : plan.steps) {
    text += fmt::format("\n{} {} {} {} {} {} {}",
                        step.id,
                        name_of(step.kind),
                        step.face,
                        step.coat,
                        show_utc(step.start - shift),
                        show_utc(step.end - shift),
                        step.chance);
    for (const Wait& wait : step.after) {
      text += fmt::format(
          " [{} {} {:.6f}]", wait.step, show_utc(wait.opens_at - shift), wait.earned.hours());
    }
  }
  for (const Milestone& milestone : plan.milestones) {
    text += fmt::format("\n{} {}", milestone.stage, show_utc(milestone.at - shift));
  }
  return text;
}

/// What few plans have; cases without it would prove nothing of it.
void count_what_is_rare(const Plan& plan,
                        const PlanRequest& request,
                        std::map<std::string, int>& seen) {
  std::set<std::string> found;
  for (const PlanStep* step : of_kind(plan, StepKind::kApply)) {
    const Product& product = **book().product(step->product);
    const bool batch = product.mix && !step->done && (step - 2) >= plan.steps.data() &&
                       (step - 2)->kind == StepKind::kApply;
    found.insert(product.mix ? "mixed" : "");
    found.insert(batch ? "in batches" : "");
    found.insert(product.kind == ProductKind::kFiller ? "filled" : "");
    found.insert(product.kind == ProductKind::kWax ? "waxed" : "");
    const auto again = book().pair(product, product);
    const bool gap = again && std::any_of(again->intervals.begin(),
                                          again->intervals.end(),
                                          [](const RecoatInterval& one) {
                                            return one.condition == RecoatCondition::kNever;
                                          });
    found.insert(gap && step->coat > 1 ? "gap" : "");
  }
  found.insert(of_kind(plan, StepKind::kWash).empty() ? "" : "washed");
  found.insert(of_kind(plan, StepKind::kRubOut).empty() ? "" : "rubbed out");
  found.insert(request.piece.over ? "came in with a finish" : "");
  for (const std::string& one : found) {
    ++seen[one];
  }
}

/// `b` does not end before `a`; a plan that stops half-way counts as endless.
bool not_earlier(const Plan& b, const Plan& a) {
  return !b.finish || (a.finish && *b.finish >= *a.finish);
}

}  // namespace

TEST_CASE("Random plans keep every rule by a second reckoning", "[plan]") {
  int complete = 0;
  int abraded = 0;
  std::map<std::string, int> seen;
  for (unsigned number = 1; number <= 120; ++number) {
    const Drawn drawn = draw(number);
    INFO(in_words(number, drawn));
    const auto plan = make_plan(drawn.request, book(), drawn.air);
    REQUIRE(plan);
    const auto faults = own::PlanChecker(*plan, drawn.request, book(), drawn.air).faults();
    for (const std::string& fault : faults) {
      UNSCOPED_INFO(fault);
    }
    CHECK(faults.empty());
    complete += plan->complete ? 1 : 0;
    abraded += of_kind(*plan, StepKind::kAbrade).empty() ? 0 : 1;
    count_what_is_rare(*plan, drawn.request, seen);
  }
  // Cases that all stop half-way or never abrade would prove little.
  CHECK(complete > 60);
  CHECK(abraded > 20);
  for (const char* rare : {"mixed",
                           "in batches",
                           "filled",
                           "waxed",
                           "washed",
                           "rubbed out",
                           "gap",
                           "came in with a finish"}) {
    INFO(rare);
    CHECK(seen[rare] > 0);
  }
}

TEST_CASE("The same request gives the same plan", "[plan][.long]") {
  for (unsigned number = 201; number <= 225; ++number) {
    const Drawn drawn = draw(number);
    INFO(in_words(number, drawn));
    const auto once = make_plan(drawn.request, book(), drawn.air);
    const auto again = make_plan(drawn.request, book(), drawn.air);
    REQUIRE(once);
    REQUIRE(again);
    CHECK(fingerprint(*once, seconds(0)) == fingerprint(*again, seconds(0)));
  }
}

TEST_CASE("A week later all is a week later", "[plan][.long]") {
  for (unsigned number = 301; number <= 325; ++number) {
    Drawn drawn = draw(number);
    INFO(in_words(number, drawn));
    // Clear of any change of the clocks, in air that is the same every day.
    const seconds week = hours(24 * 7);
    const seconds moved = hours(24 * 7 * 15);
    const AirRecord air({}, drawn.air.usual_day(), drawn.zone);
    PlanRequest early = drawn.request;
    const auto move = [](PlanRequest& one, seconds by) {
      for (Time* time : {&one.made_at, &one.from, &one.by, &one.horizon}) {
        *time += by;
      }
      if (one.piece.over) {
        one.piece.over->since += by;
      }
      for (Interval& opening : one.hours) {
        opening.start += by;
        opening.end += by;
      }
    };
    move(early, moved);
    PlanRequest late = early;
    move(late, week);
    const auto first = make_plan(early, book(), air);
    const auto second = make_plan(late, book(), air);
    REQUIRE(first);
    REQUIRE(second);
    CHECK(fingerprint(*first, seconds(0)) == fingerprint(*second, week));
  }
}

TEST_CASE("More hours never make a plan end later", "[plan][.long]") {
  for (unsigned number = 401; number <= 440; ++number) {
    const Drawn drawn = draw(number);
    INFO(in_words(number, drawn));
    const auto plan = make_plan(drawn.request, book(), drawn.air);
    PlanRequest longer = drawn.request;
    for (std::size_t i = 0; i < longer.hours.size(); ++i) {
      longer.hours[i].end += minutes(45);  // no opening of these weeks ends so near the next
    }
    const auto more = make_plan(longer, book(), drawn.air);
    REQUIRE(plan);
    REQUIRE(more);
    CHECK(not_earlier(*plan, *more));
    CHECK(more->chance >= plan->chance);
  }
}

TEST_CASE("More confidence never makes a plan end earlier", "[plan][.long]") {
  for (unsigned number = 501; number <= 540; ++number) {
    const Drawn drawn = draw(number);
    INFO(in_words(number, drawn));
    PlanRequest surer = drawn.request;
    surer.confidence = std::min(0.98, surer.confidence + 0.05);
    const auto plan = make_plan(drawn.request, book(), drawn.air);
    const auto sure = make_plan(surer, book(), drawn.air);
    REQUIRE(plan);
    REQUIRE(sure);
    CHECK(not_earlier(*sure, *plan));
  }
}

TEST_CASE("Warmer air within the limits never makes a lacquer end later", "[plan][.long]") {
  // Lacquer has no window that closes and nothing to wipe, which warm air would shorten.
  const Schedule schedule = schedule_of({coats("nitrocellulose-sanding-sealer", Method::kSpray, 1),
                                         abrading("P320"),
                                         coats("nitrocellulose-lacquer-spray", Method::kSpray, 3)});
  for (unsigned number = 601; number <= 630; ++number) {
    Drawn drawn = draw(number);
    INFO(in_words(number, drawn));
    drawn.request.piece.schedule = &schedule;
    std::optional<Plan> before;
    for (const double celsius : {16.0, 19.0, 23.0, 28.0}) {
      const AirRecord air = constant_air(celsius, 45.0, drawn.zone);
      const auto plan = make_plan(drawn.request, book(), air);
      REQUIRE(plan);
      if (before) {
        CHECK(not_earlier(*before, *plan));
      }
      before = *plan;
    }
    CHECK(before->complete);
  }
}
