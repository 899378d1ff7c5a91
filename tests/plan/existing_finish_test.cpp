#include <catch2/catch.hpp>

#include "plan/plan_checker.h"
#include "plan/plan_logs.h"
#include "plan/plan_requests.h"
#include "plan/verdict.h"
#include "plan/what_now.h"
#include "recipe/schedule_check.h"

using namespace coatwright;
using namespace asked;
using std::chrono::hours;
using std::chrono::minutes;

namespace {

const Time kStart = at("2027-06-07T08:00:00-04:00");

struct Case {
  PlanRequest request;
  AirRecord air;
};

const Product& finish(const std::string& name) {
  return **book().finish_on_piece(name);
}

Result<const Schedule*> schedule_over(const std::string& name,
                                      const std::string& over,
                                      const std::string& species = "hard-maple") {
  return book().schedule_for(name, {*book().species(species), {}, &finish(over)});
}

Case case_of(const std::string& schedule,
             const std::string& over,
             Faces faces = Faces::kOne,
             const std::string& species = "hard-maple") {
  Asked one;
  one.faces = faces;
  Case made{request(one, kStart, kStart + hours(24 * 20), zone()),
            usual_air("6:00 18C 50%; 14:00 23C 45%; 22:00 19C 50%", zone())};
  made.request.piece.species = *book().species(species);
  made.request.piece.schedule = *schedule_over(schedule, over, species);
  made.request.piece.over = ExistingFinish{&finish(over), ExistingFinish::before(kStart)};
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

const PlanStep& first_of(const Plan& plan, StepKind kind) {
  const auto all = of_kind(plan, kind);
  REQUIRE_FALSE(all.empty());
  return *all.front();
}

std::vector<std::string> coats_in(const Schedule& schedule) {
  std::vector<std::string> products;
  for (const ScheduleStep& step : schedule.steps) {
    if (step.kind == ScheduleStepKind::kCoat) {
      products.push_back(step.product);
    }
  }
  return products;
}

bool has(const Schedule& schedule, ScheduleStepKind kind) {
  return std::any_of(schedule.steps.begin(), schedule.steps.end(), [&](const ScheduleStep& step) {
    return step.kind == kind;
  });
}

bool says(const std::vector<std::string>& texts, const std::string& word) {
  return std::any_of(texts.begin(), texts.end(), [&](const std::string& text) {
    return text.find(word) != std::string::npos;
  });
}

}  // namespace

// EVIDENCE: common-practice: dewaxed shellac holds on nearly anything, and nearly anything on it
TEST_CASE("Over an old finish of unknown kind dewaxed shellac comes first", "[plan]") {
  for (const char* name : {"brushed-varnish", "waterborne-clear", "sprayed-lacquer"}) {
    INFO(name);
    const auto schedule = schedule_over(name, "old-finish");
    REQUIRE(schedule);
    const auto products = coats_in(**schedule);
    const auto usual = coats_in(**book().schedule(name));
    CHECK(products.front() == "dewaxed-shellac");
    CHECK(products.size() == usual.size() + (usual.front() == "dewaxed-shellac" ? 0 : 1));
    CHECK_FALSE(has(**schedule, ScheduleStepKind::kSand));
    const Case one = case_of(name, "old-finish");
    const Plan plan = planned(one);
    REQUIRE(plan.complete);
    CHECK(first_of(plan, StepKind::kApply).product == "dewaxed-shellac");
    CHECK(first_of(plan, StepKind::kApply).coat == 1);
    CHECK(first_of(plan, StepKind::kAbrade).end < first_of(plan, StepKind::kApply).start);
    CHECK(of_kind(plan, StepKind::kSand).empty());
  }
}

TEST_CASE("Where shellac is the finish no second barrier is put in", "[plan]") {
  const auto schedule = schedule_over("oily-wood-varnish", "old-finish");
  REQUIRE(schedule);
  const auto products = coats_in(**schedule);
  CHECK(std::count(products.begin(), products.end(), "dewaxed-shellac") == 1);
}

TEST_CASE("What prepares bare wood is left out over a finish", "[plan]") {
  // Teak is washed, filled where it is to lie level; water raises the grain of bare wood alone.
  for (const char* species : {"teak", "white-oak", "hard-maple"}) {
    for (const char* name : {"filled-varnish", "oily-wood-varnish", "waterborne-clear"}) {
      INFO(species << ", " << name);
      const auto schedule = schedule_over(name, "oil-modified-varnish", species);
      REQUIRE(schedule);
      CHECK_FALSE(has(**schedule, ScheduleStepKind::kSand));
      CHECK_FALSE(has(**schedule, ScheduleStepKind::kRaiseGrain));
      CHECK_FALSE(has(**schedule, ScheduleStepKind::kWash));
      for (const std::string& product : coats_in(**schedule)) {
        CHECK((**book().product(product)).kind != ProductKind::kFiller);
      }
    }
  }
}

// EVIDENCE: common-practice: no stain enters through a film
TEST_CASE("A stain over an old finish is refused", "[plan]") {
  for (const char* name : {"stain-and-lacquer",
                           "stain-and-waterborne",
                           "dye-and-waterborne",
                           "water-stain-and-waterborne"}) {
    INFO(name);
    const auto schedule = schedule_over(name, "old-finish");
    if (!schedule) {
      CHECK(schedule.error().code == ErrorCode::kOutOfRange);
      continue;
    }
    const auto findings = check_pairs(**schedule, &finish("old-finish"), book());
    REQUIRE(findings);
    const PairFinding* refused = first_refusal(*findings);
    REQUIRE(refused != nullptr);
    CHECK(refused->over->kind == ProductKind::kStain);
    CHECK(refusal_of(*refused).find("strip") != std::string::npos);
    const Case one = case_of(name, "old-finish");
    const auto plan = make_plan(one.request, book(), one.air);
    REQUIRE_FALSE(plan);
    CHECK(plan.error().code == ErrorCode::kOutOfRange);
  }
}

// EVIDENCE: common-practice: through its windows a film that does not redissolve holds by tooth
TEST_CASE("Over a cured finish that is known the first coat is abraded for", "[plan]") {
  const std::vector<std::pair<std::string, std::string>> pairs = {
      {"conversion-varnish", "conversion-varnish"},
      {"brushed-varnish", "oil-modified-varnish"},
      {"brushed-varnish", "interior-alkyd-varnish"},
      {"waterborne-clear", "waterborne-clear"},
      {"two-part-polyurethane", "two-part-polyurethane"}};
  for (const auto& [name, over] : pairs) {
    for (const Faces faces : {Faces::kOne, Faces::kTwo, Faces::kOnPoints}) {
      INFO(name << " over " << over << ", faces " << static_cast<int>(faces));
      const Plan plan = planned(case_of(name, over, faces));
      REQUIRE(plan.complete);
      const PlanStep& abrading = first_of(plan, StepKind::kAbrade);
      const PlanStep& coat = first_of(plan, StepKind::kApply);
      CHECK(abrading.end < coat.start);
      CHECK(abrading.face == coat.face);
      CHECK(coat.start - abrading.end < hours(3));
      CHECK_FALSE(says(abrading.cautions, "lead"));
    }
  }
}

TEST_CASE("Abrading an old finish is cautioned for lead", "[plan]") {
  const Plan plan = planned(case_of("brushed-varnish", "old-finish"));
  const PlanStep& abrading = first_of(plan, StepKind::kAbrade);
  CHECK((says(abrading.cautions, "lead") || says(abrading.cautions, "Lead")));
  // Only the old finish: abrading the coats that follow is not.
  for (const PlanStep* step : of_kind(plan, StepKind::kAbrade)) {
    if (step != &abrading) {
      CHECK_FALSE(says(step->cautions, "lead"));
    }
  }
}

TEST_CASE("What a piece came in with is not waited for", "[plan]") {
  // The shop opens at eight, and the plan is made at five.
  Case one = case_of("brushed-varnish", "oil-modified-varnish");
  one.request.from = one.request.made_at = kStart - hours(3);
  const Plan plan = planned(one);
  CHECK(first_of(plan, StepKind::kApply).start < kStart + hours(2));
  std::size_t first = plan.steps.size();
  for (std::size_t i = 0; i < plan.steps.size(); ++i) {
    if (plan.steps[i].kind == StepKind::kApply) {
      first = i;
      break;
    }
  }
  for (std::size_t i = 0; i <= first; ++i) {
    CHECK(plan.steps[i].kind != StepKind::kWait);
  }
  for (const PlanStep& step : plan.steps) {
    for (const Wait& wait : step.after) {
      CHECK(wait.step != 0);
    }
  }
}

TEST_CASE("A wipe that is logged does not wake the finish beneath", "[plan]") {
  Case one = case_of("brushed-varnish", "oil-modified-varnish");
  const auto fresh = make_plan(one.request, book(), one.air);
  one.request.piece.log = {done(StepKind::kWipe, kStart - minutes(30))};
  const auto plan = make_plan(one.request, book(), one.air);
  REQUIRE(fresh);
  REQUIRE(plan);
  CHECK(plan->finish == fresh->finish);
  CHECK(of_kind(*plan, StepKind::kRags).size() == of_kind(*fresh, StepKind::kRags).size());
}

TEST_CASE("A plan over a finish goes on from its log", "[plan]") {
  for (const auto& [name, over] : std::vector<std::pair<std::string, std::string>>{
           {"brushed-varnish", "old-finish"},
           {"conversion-varnish", "conversion-varnish"},
           {"waterborne-clear", "hardwax-oil"}}) {
    if (!schedule_over(name, over)) {
      continue;
    }
    const auto findings = check_pairs(**schedule_over(name, over), &finish(over), book());
    if (!findings || first_refusal(*findings) != nullptr) {
      continue;
    }
    INFO(name << " over " << over);
    const Case one = case_of(name, over);
    const Plan whole = planned(one);
    REQUIRE(whole.complete);
    int cuts = 0;
    for (std::size_t i = 0; i + 1 < whole.steps.size(); ++i) {
      if (ends_session(whole, i) && ++cuts <= 4) {
        INFO("after step " << i + 1);
        Case later = one;
        later.request.piece.log = log_of(whole, i + 1);
        later.request.from = whole.steps[i].end;
        CHECK(planned(later).finish == whole.finish);
      }
    }
  }
}

TEST_CASE("What may be done now over a finish asks for abrading first", "[plan]") {
  Case one = case_of("brushed-varnish", "oil-modified-varnish");
  const auto now_of = [&](StepKind kind) -> std::optional<StepNow> {
    NowRequest request;
    request.pieces = {one.request.piece};
    request.now = kStart + hours(2);
    const auto all = what_now(request, book(), one.air);
    REQUIRE(all);
    for (const StepNow& step : all->front().steps) {
      if (step.kind == kind) {
        return step;
      }
    }
    return std::nullopt;
  };
  one.request.piece.log = {done(StepKind::kSample, kStart)};
  REQUIRE(now_of(StepKind::kAbrade));
  CHECK(now_of(StepKind::kAbrade)->readiness == Readiness::kMayBeDone);
  REQUIRE(now_of(StepKind::kApply));
  CHECK(now_of(StepKind::kApply)->readiness == Readiness::kNotYet);
  LoggedWork abraded = done(StepKind::kAbrade, kStart + hours(1));
  abraded.grit = "P320";
  one.request.piece.log.push_back(abraded);
  CHECK_FALSE(now_of(StepKind::kAbrade));
  CHECK(now_of(StepKind::kApply)->readiness == Readiness::kMayBeDone);
}

TEST_CASE("A coat's verdict over a finish that is long dry", "[plan]") {
  const AirRecord air = constant_air(21.0, 45.0, zone());
  const auto verdict = [&](const std::string& over, const std::string& product, bool abraded) {
    LaidCoat beneath;
    beneath.product = &finish(over);
    beneath.begun = beneath.ended = ExistingFinish::before(kStart);
    beneath.came_in = true;
    return judge_coat(**book().product(product), kStart, &beneath, abraded, 0.9, book(), air);
  };
  const auto stain = verdict("old-finish", "oil-wiping-stain", true);
  REQUIRE(stain);
  CHECK(stain->kind() == VerdictKind::kForbidden);
  const auto scuffed = verdict("oil-modified-varnish", "oil-modified-varnish", true);
  REQUIRE(scuffed);
  CHECK(scuffed->kind() == VerdictKind::kInWindow);
  const auto slick = verdict("oil-modified-varnish", "oil-modified-varnish", false);
  REQUIRE(slick);
  CHECK(slick->kind() == VerdictKind::kUnabraded);
}
