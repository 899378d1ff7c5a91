// What is sprayed in one booth one after the other.
#include "plan/booth.h"

#include <catch2/catch.hpp>

#include "plan/booth_steps.h"
#include "plan/shop_requests.h"

using namespace coatwright;
using namespace asked;
using Catch::Matchers::Contains;
using std::chrono::hours;
using std::chrono::minutes;

namespace {

const Time kMonday = at("2027-02-01T08:00:00-05:00");

const Product& product(const std::string& name) {
  return **book().product(name);
}

/// One coat of each, sanded before.
const Schedule& sprayed_enamel() {
  static const Schedule kSchedule =
      schedule_of({sanding({"P180"}), coats("alkyd-enamel", Method::kSpray, 1)});
  return kSchedule;
}
const Schedule& brushed_enamel() {
  static const Schedule kSchedule =
      schedule_of({sanding({"P180"}), coats("alkyd-enamel", Method::kBrush, 1)});
  return kSchedule;
}
const Schedule& sprayed_lacquer() {
  static const Schedule kSchedule =
      schedule_of({sanding({"P180"}), coats("nitrocellulose-lacquer-spray", Method::kSpray, 2)});
  return kSchedule;
}

PartRequest part_of(const Schedule& schedule) {
  PartRequest part;
  part.name = "all";
  part.finish.schedule = &schedule;
  part.finish.area = Area::from_square_metres(1.0);
  return part;
}

ShopRequest shop_with(const Schedule& other, int people = 1) {
  ShopRequest request =
      shop(kMonday, kMonday + hours(24 * 14), zone(), "Mon-Fri 8:00-12:00, 13:00-17:00", people);
  request.effort = 60;
  request.jobs.push_back(job("door", {part_of(other)}, kMonday + hours(9)));
  request.jobs.push_back(job("shelf", {part_of(sprayed_lacquer())}, kMonday + hours(24 * 10)));
  return request;
}

Plan planned(const ShopRequest& request) {
  auto plan = make_shop_plan(request, book(), constant_air(22.0, 45.0, zone()));
  if (!plan) {
    FAIL(plan.error().text());
  }
  return std::move(*plan);
}

LoggedWork logged(StepKind kind, Time time, const std::string& name = "", bool left_out = false) {
  LoggedWork work;
  work.kind = kind;
  work.left_out = left_out;
  work.faces = {0};
  work.at = time;
  if (!name.empty()) {
    work.product = &product(name);
    work.product_name = name;
  }
  return work;
}

/// Whether so many people and one more are there all through a step.
bool somebody_is_free(const PlanStep& cleaning, const Plan& plan, const ShopRequest& request) {
  for (Time now = cleaning.start; now < cleaning.end; now += minutes(1)) {
    int busy = 0;
    for (const PlanStep& step : plan.steps) {
      busy += step.attended && step.start <= now && now < step.end ? step.people : 0;
    }
    const bool staffed =
        std::any_of(request.hours.begin(), request.hours.end(), [&](const StaffedHours& one) {
          return one.open.start <= now && now < one.open.end && busy <= one.people;
        });
    if (!staffed) {
      return false;
    }
  }
  return true;
}

/// Sprayed coats that meet the other kind of residue though nobody has cleaned since.
int unclean_coats(const Plan& plan) {
  bool oil = false;
  bool nitrocellulose = false;
  int unclean = 0;
  for (const PlanStep& step : plan.steps) {
    if (step.kind == StepKind::kCleanBooth) {
      oil = nitrocellulose = false;
    } else if (step.kind == StepKind::kApply && step.method == "spray") {
      const Hazards& hazards = product(step.product).hazards;
      unclean += (hazards.nitrocellulose && oil) || (hazards.rags_self_heat && nitrocellulose);
      nitrocellulose = nitrocellulose || hazards.nitrocellulose;
      oil = oil || (hazards.rags_self_heat && !hazards.nitrocellulose);
    }
  }
  return unclean;
}

/// A plan of two sprayed coats, an hour and so many minutes apart.
struct Pair {
  Plan plan;
  std::vector<SprayedCoat> sprayed;
  std::vector<StaffedHours> staffed = {{{kMonday, kMonday + hours(9)}, 1}};
  WorkingTime cleaning;

  explicit Pair(minutes gap) {
    cleaning.fixed_minutes = 45.0;
    plan.from = kMonday;
    plan.fits = true;
    add(1, kMonday + hours(1), BoothResidue::kOil);
    add(2, kMonday + hours(1) + minutes(20) + gap, BoothResidue::kNitrocellulose);
  }

  void add(int id, Time start, BoothResidue leaves) {
    PlanStep step;
    step.id = id;
    step.kind = StepKind::kApply;
    step.piece = id == 1 ? "door" : "shelf";
    step.start = start;
    step.end = start + minutes(20);
    plan.steps.push_back(step);
    sprayed.push_back({id, {step.start, step.end}, leaves});
  }
  void add_work(Time start, Time end) {
    PlanStep step;
    step.id = 90;
    step.kind = StepKind::kGlue;
    step.start = start;
    step.end = end;
    plan.steps.push_back(step);
  }
  void run(std::vector<BoothUse> logged = {}) {
    add_booth_cleaning(std::move(logged), sprayed, staffed, cleaning, plan);
  }
};

}  // namespace

// EVIDENCE: osha_1910_107 (g)(6): no alternating use of a booth for materials that ignite together
// unless all deposits are removed
TEST_CASE("Lacquer after sprayed oil-type enamel waits for a clean booth", "[plan]") {
  for (const int people : {1, 2}) {
    const ShopRequest request = shop_with(sprayed_enamel(), people);
    const Plan plan = planned(request);
    INFO(in_lines(plan));
    REQUIRE(of_kind(plan, StepKind::kApply).size() == 3);
    const auto cleaned = of_kind(plan, StepKind::kCleanBooth);
    if (plan.fits) {
      REQUIRE_FALSE(cleaned.empty());
      CHECK(unclean_coats(plan) == 0);
    } else {
      CHECK_THAT(reasons(plan), Contains("booth must be cleaned"));
    }
    for (const PlanStep* step : cleaned) {
      CHECK(somebody_is_free(*step, plan, request));
      CHECK(step->end - step->start == minutes(45));
      CHECK_THAT(step->cautions.front(), Contains("do not spark"));
    }
  }
}

TEST_CASE("Brushed oil and sprayed lacquer never meet in a booth", "[plan]") {
  const Plan plan = planned(shop_with(brushed_enamel()));
  REQUIRE(of_kind(plan, StepKind::kApply).size() == 3);
  CHECK(of_kind(plan, StepKind::kCleanBooth).empty());
  CHECK(residue_of(product("alkyd-enamel"), Method::kBrush) == BoothResidue::kNone);
  CHECK(residue_of(product("alkyd-enamel"), Method::kSpray) == BoothResidue::kOil);
  CHECK(residue_of(product("waterborne-clear"), Method::kSpray) == BoothResidue::kNone);
  CHECK(residue_of(product("nitrocellulose-sanding-sealer"), Method::kSpray) ==
        BoothResidue::kNitrocellulose);
}

TEST_CASE("What the log has of the booth counts, cleaning done and left out alike", "[plan]") {
  const Time sprayed = kMonday - hours(24 * 3);
  for (const int how : {0, 1, 2}) {
    ShopRequest request = shop_with(sprayed_enamel());
    request.jobs[1].earliest = kMonday + hours(2);  // time for the booth before it
    auto& log = request.jobs[0].parts[0].finish.log;
    log = {logged(StepKind::kApply, sprayed, "alkyd-enamel")};
    if (how > 0) {
      log.push_back(logged(StepKind::kCleanBooth, sprayed + hours(1), "", how == 2));
    }
    const Plan plan = planned(request);
    INFO(in_lines(plan));
    int planned_cleaning = 0;
    for (const PlanStep* step : of_kind(plan, StepKind::kCleanBooth)) {
      planned_cleaning += !step->done;
    }
    CHECK(planned_cleaning == (how == 0 ? 1 : 0));
    CHECK(plan.fits);
  }
}

TEST_CASE("The booth is cleaned at the latest moment between the two", "[plan]") {
  Pair pair(minutes(60));
  pair.run();
  const auto cleaned = of_kind(pair.plan, StepKind::kCleanBooth);
  REQUIRE(cleaned.size() == 1);
  CHECK(cleaned.front()->end == pair.sprayed[1].applied.start);
  CHECK(cleaned.front()->start == cleaned.front()->end - minutes(45));
  CHECK(pair.plan.fits);
}

TEST_CASE("Where nobody is free for the booth the plan does not fit", "[plan]") {
  SECTION("too short a gap") {
    Pair pair(minutes(44));
    pair.run();
    CHECK(of_kind(pair.plan, StepKind::kCleanBooth).empty());
    CHECK_FALSE(pair.plan.fits);
    CHECK_THAT(reasons(pair.plan), Contains("booth must be cleaned") && Contains("shelf"));
    CHECK(pair.plan.warnings.front().code == "booth-not-cleaned");
    CHECK(pair.plan.warnings.front().step == 2);
  }
  SECTION("the one who is there glues meanwhile; a second one cleans") {
    for (const int people : {1, 2}) {
      Pair pair(minutes(60));
      pair.staffed.front().people = people;
      pair.add_work(kMonday + hours(1) + minutes(30), kMonday + hours(2));
      pair.run();
      CHECK(pair.plan.fits == (people == 2));
    }
  }
  SECTION("nobody is there in between") {
    Pair pair(minutes(60));
    pair.staffed = {{{kMonday, kMonday + hours(1) + minutes(30)}, 1},
                    {{kMonday + hours(2), kMonday + hours(9)}, 1}};
    pair.run();
    CHECK_FALSE(pair.plan.fits);
  }
  SECTION("before the work that fills the rest of the gap") {
    Pair pair(hours(3));
    pair.add_work(kMonday + hours(3), kMonday + hours(4) + minutes(20));
    pair.run();
    const auto cleaned = of_kind(pair.plan, StepKind::kCleanBooth);
    REQUIRE(cleaned.size() == 1);
    CHECK(cleaned.front()->end == kMonday + hours(3));
  }
}

TEST_CASE("Two that would be sprayed at once, or overlap, do not fit", "[plan]") {
  for (const int begins : {0, 10}) {
    Pair pair(minutes(begins - 20));
    pair.staffed.front().people = 4;
    pair.run();
    CHECK(of_kind(pair.plan, StepKind::kCleanBooth).empty());
    CHECK_FALSE(pair.plan.fits);
  }
}

TEST_CASE("Residues that were mixed stay mixed until the booth is clean", "[plan]") {
  const auto use = [](int hour, BoothResidue leaves, bool cleans = false) {
    const Time time = kMonday + hours(hour);
    return BoothUse{time, time, leaves, cleans};
  };
  const std::vector<BoothUse> uses = {use(0, BoothResidue::kOil),
                                      use(1, BoothResidue::kNone),
                                      use(2, BoothResidue::kNitrocellulose),
                                      use(3, BoothResidue::kNitrocellulose),
                                      use(4, BoothResidue::kNone, true),
                                      use(5, BoothResidue::kNitrocellulose)};
  const auto lies = [&](int half_hours) {
    return residue_before(uses, kMonday + minutes(30 * half_hours));
  };
  CHECK(lies(-1) == BoothResidue::kNone);
  CHECK(lies(0) == BoothResidue::kOil);  // at once with the first
  CHECK(lies(3) == BoothResidue::kOil);
  CHECK(ignite_together(lies(5), BoothResidue::kNitrocellulose));
  CHECK(ignite_together(lies(7), BoothResidue::kOil));
  CHECK(ignite_together(lies(7), BoothResidue::kNitrocellulose));
  CHECK_FALSE(ignite_together(lies(7), BoothResidue::kNone));
  CHECK(lies(9) == BoothResidue::kNone);
  CHECK_FALSE(ignite_together(lies(11), BoothResidue::kNitrocellulose));
}
