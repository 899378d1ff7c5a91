#include <catch2/catch.hpp>

#include "plan/bench_session.h"
#include "plan/own_drying.h"
#include "plan/piece_state.h"
#include "plan/plan_checker.h"
#include "plan/plan_logs.h"
#include "plan/plan_requests.h"
#include "plan/session_words.h"

using namespace coatwright;
using namespace asked;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

namespace {

WorkingTime minutes_of(double fixed, double per_square_metre) {
  return {fixed, per_square_metre, per_square_metre, "judgement"};
}

/// Round figures without a spread, to reckon by hand.
const WorkingTimes kTimes = {
    {"abrade", minutes_of(0, 4)},
    {"clean", minutes_of(0, 2)},
    {"wash", minutes_of(0, 3)},
    {"mix", minutes_of(5, 0)},
    {"brush", minutes_of(0, 6)},
    {"brush-waterborne", minutes_of(0, 5)},
    {"pad", minutes_of(0, 4)},
    {"spray", minutes_of(0, 2)},
    {"wipe-oil-apply", minutes_of(0, 3)},
    {"wipe-oil-off", minutes_of(0, 2)},
    {"gun-set-up", minutes_of(10, 0)},
    {"gun-clean-up", minutes_of(15, 0)},
    {"brush-clean", minutes_of(10, 0)},
    {"rags", minutes_of(2, 0)},
};

/// A coat on a piece of this area, which keeps what its work item points to.
struct Bench {
  Bench(const std::string& name, Method method, double square_metres)
      : product(**book().product(name)), step(coats(name, method, 1)) {
    wash.kind = ScheduleStepKind::kWash;
    request.piece.area = Area::from_square_metres(square_metres);
    work.kind = WorkItem::Kind::kCoat;
    work.step = &step;
    work.product = &product;
    work.faces = {0};
  }
  [[nodiscard]] Result<BenchSession> session(const std::string& abrade_grit,
                                             seconds pot_life,
                                             seconds wipe_closes = seconds(0)) const {
    return SessionPlanner(request, kTimes).coat(work, abrade_grit, {wipe_closes, pot_life});
  }

  PlanRequest request;
  Product product;
  ScheduleStep step;
  ScheduleStep wash;
  WorkItem work;
};

}  // namespace

TEST_CASE("Each batch is mixed right before its share of the area", "[plan]") {
  // 10 m2 take 50 minutes: 17 each in three batches, 13 each in four.
  const auto fours = Bench("epoxy-sealer", Method::kBrush, 10.0).session("", minutes(15));
  REQUIRE(fours);
  CHECK(in_words(*fours) ==
        "clean 0-20, mix 20-25, apply 25-38, mix 38-43, apply 43-56, mix 56-61, apply 61-74, "
        "mix 74-79, apply 79-92, clean 92-102");
  CHECK(fours->apply_offset == minutes(25));
  CHECK(fours->wet_end == minutes(92));
  // A pot life met on its last second is missed: at 50 minutes two batches, at 51 one.
  CHECK(in_words(*Bench("epoxy-sealer", Method::kBrush, 10.0).session("", minutes(50))) ==
        "clean 0-20, mix 20-25, apply 25-50, mix 50-55, apply 55-80, clean 80-90");
  CHECK(in_words(*Bench("epoxy-sealer", Method::kBrush, 10.0).session("", minutes(51))) ==
        "clean 0-20, mix 20-25, apply 25-75, clean 75-85");
  // No pot life known: one batch.
  CHECK(in_words(*Bench("epoxy-sealer", Method::kBrush, 10.0).session("", minutes(0))) ==
        "clean 0-20, mix 20-25, apply 25-75, clean 75-85");
}

TEST_CASE("A batch stands for its induction, which its pot life counts", "[plan]") {
  Bench bench("epoxy-sealer", Method::kBrush, 4.0);
  bench.product.mix->induction = Hours::from_minutes(10);
  // 4 m2 take 20 minutes, and 10 before them: 30 in all.
  CHECK(in_words(*bench.session("", minutes(31))) ==
        "clean 0-8, mix 8-13, apply 23-43, clean 43-53");
  CHECK(in_words(*bench.session("", minutes(30))) ==
        "clean 0-8, mix 8-13, apply 23-33, mix 33-38, apply 48-58, clean 58-68");
  CHECK(bench.session("", minutes(30))->apply_offset == minutes(23));
  CHECK(bench.session("", minutes(30))->parts[1].note.find("stand 10 minutes") !=
        std::string::npos);
  // Ten minutes are gone before the first stroke.
  const auto none = bench.session("", minutes(11));
  REQUIRE_FALSE(none);
  CHECK(none.error().code == ErrorCode::kNo);
  CHECK(none.error().message.find("11 minutes") != std::string::npos);
}

TEST_CASE("Dust, solvent and mix each get their time in one session", "[plan]") {
  // 1 m2: abraded 0-4, cleaned 4-6, washed 6-9. Dust has settled at 19, the solvent left at 24.
  Bench stirred("oil-modified-varnish", Method::kBrush, 1.0);
  stirred.work.wash = &stirred.wash;
  CHECK(in_words(*stirred.session("P320", minutes(0))) ==
        "abrade 0-4, clean 4-6, wash 6-9, mix 9-14, apply 24-30, rags 30-32, clean 32-42");
  // What has a pot life is not mixed while nothing can be put on.
  Bench mixed("epoxy-sealer", Method::kBrush, 1.0);
  mixed.work.wash = &mixed.wash;
  CHECK(in_words(*mixed.session("P320", minutes(15))) ==
        "abrade 0-4, clean 4-6, wash 6-9, mix 24-29, apply 29-34, clean 34-44");
  // The gun is set up meanwhile.
  Bench sprayed("two-part-polyurethane", Method::kSpray, 1.0);
  sprayed.work.wash = &sprayed.wash;
  CHECK(in_words(*sprayed.session("", minutes(120))) ==
        "clean 0-2, wash 2-5, mix 5-15, mix 20-25, apply 35-37, clean_gun 37-52");
}

TEST_CASE("What is mixed and wiped off is wiped, batch by batch", "[plan]") {
  Bench bench("hardwax-oil", Method::kWipe, 4.0);
  bench.product.wipe_off = (**book().product("oil-varnish-blend")).wipe_off;
  bench.product.wipe_off->opens = Hours::from_minutes(5);
  bench.product.mix = (**book().product("epoxy-sealer")).mix;
  // 4 m2: on in 12 minutes, off in 8, at first 12 minutes after the first stroke.
  CHECK(in_words(*bench.session("", minutes(30), minutes(30))) ==
        "clean 0-8, mix 8-13, apply 13-25, wipe 25-33, rags 33-35");
  // A pot life of ten minutes leaves halves: on in 6, off in 4, the last spot soaks 5.
  CHECK(in_words(*bench.session("", minutes(10), minutes(30))) ==
        "clean 0-8, mix 8-13, apply 13-19, wipe 20-24, mix 24-29, apply 29-35, wipe 36-40, "
        "rags 40-42");
}

namespace {

const std::vector<std::string> kMixed = {
    "epoxy-sealer", "two-part-polyurethane", "conversion-varnish"};

double minutes_in(const std::string& product, double celsius) {
  const AirRecord air = constant_air(celsius, 50.0, zone());
  const Time mixed = at("2027-06-07T09:00:00-04:00");
  DryingClocks clocks(air, mixed - hours(4));
  return static_cast<double>(pot_life_of(**book().product(product), mixed, clocks).count()) / 60.0;
}

}  // namespace

// EVIDENCE: common-practice: half as long about 10 C warmer; the label's time is for about 23 C
TEST_CASE("A pot life is the label's cautious end, shorter in the warm and never longer",
          "[plan]") {
  for (const std::string& name : kMixed) {
    INFO(name);
    const Mix& mix = *(**book().product(name)).mix;
    const double label = mix.pot_life->low().minutes();
    CHECK(minutes_in(name, 23.0) == Approx(label).margin(0.05));
    for (const double cold : {4.0, 10.0, 16.0, 22.0}) {
      CHECK(minutes_in(name, cold) == Approx(label).margin(0.05));
    }
    const double warm = minutes_in(name, 33.0);
    CHECK(label / warm > 1.7);
    // An acid cure takes its energy from its drying: its pot life is cut shorter, the cautious
    // side.
    CHECK(label / warm < (name == "conversion-varnish" ? 3.0 : 2.3));
    CHECK(minutes_in(name, 28.0) > warm);
    CHECK(minutes_in(name, 28.0) < label);
    // EVIDENCE: freiesleben1977
    const double rate = own::arrhenius(mix.pot_life_law.activation_kj_per_mol, 306.15);
    CHECK(warm == Approx(label / rate).epsilon(0.002));
  }
}

TEST_CASE("What is not mixed has no pot life", "[plan]") {
  CHECK(minutes_in("waterborne-clear", 33.0) == 0.0);
}

TEST_CASE("In air that warms, a pot life is the integral over it", "[plan]") {
  const AirRecord air = usual_air("6:00 14C 50%; 14:00 33C 40%; 22:00 18C 45%", zone());
  const Time day = at("2027-06-07T05:00:00-04:00");
  DryingClocks clocks(air, day - hours(4));
  own::Walk walk(air, day);
  for (const std::string& name : kMixed) {
    const Product& product = **book().product(name);
    for (int hour = 1; hour < 16; ++hour) {
      const Time mixed = day + hours(hour) + minutes(7);
      const Hours label = product.mix->pot_life->low();
      const Time latest = mixed + seconds(std::llround(label.hours() * 3600.0));
      const Time dead =
          walk.reached(product.mix->pot_life_law, std::nullopt, mixed, label.hours(), latest)
              .value_or(latest);
      INFO(name << " at " << show_utc(mixed));
      CHECK(std::abs((pot_life_of(product, mixed, clocks) - (dead - mixed)).count()) <= 20);
    }
  }
}

namespace {

struct Case {
  PlanRequest request;
  AirRecord air;
};

Case case_of(const Schedule& schedule,
             double square_metres,
             const std::string& day,
             const std::string& week = "Mon-Sun 7:00-19:00") {
  Asked one;
  one.square_metres = square_metres;
  one.week = week;
  const Time start = at("2027-06-07T07:00:00-04:00");
  Case made{request(one, start, start + hours(24 * 14), zone()), usual_air(day, zone())};
  made.request.piece.schedule = &schedule;
  return made;
}

void check_plan(const Plan& plan, const Case& one) {
  for (const std::string& fault : own::PlanChecker(plan, one.request, book(), one.air).faults()) {
    INFO(fault);
    CHECK(false);
  }
}

const Schedule& epoxy_alone() {
  static const Schedule schedule =
      schedule_of({sanding({"P150"}), coats("epoxy-sealer", Method::kBrush, 1)});
  return schedule;
}

}  // namespace

// EVIDENCE: common-practice: 15 to 45 minutes at 23 C for the thin clear epoxies
TEST_CASE("Ten square metres of epoxy take several batches in a warm shop", "[plan]") {
  const Case one = case_of(epoxy_alone(), 10.0, "0:00 29.5C 40%");
  const auto plan = make_plan(one.request, book(), one.air);
  REQUIRE(plan);
  REQUIRE(plan->complete);
  check_plan(*plan, one);
  const Mix& mix = *(**book().product("epoxy-sealer")).mix;
  const double lasts = 15.0 / own::arrhenius(mix.pot_life_law.activation_kj_per_mol, 273.15 + 29.5);
  CHECK(lasts < 12.0);
  // 3 to 6 minutes a square metre: at 90 % the longer.
  std::size_t fewest = 1;
  while (std::ceil(60.0 / static_cast<double>(fewest) - 1e-6) >= lasts) {
    ++fewest;
  }
  CHECK(of_kind(*plan, StepKind::kApply).size() == fewest);
  CHECK(of_kind(*plan, StepKind::kMix).size() == fewest);
  // At 10 C less the same area takes fewer.
  const Case cool = case_of(epoxy_alone(), 10.0, "0:00 19.5C 40%");
  const auto other = make_plan(cool.request, book(), cool.air);
  REQUIRE(other);
  check_plan(*other, cool);
  CHECK(of_kind(*other, StepKind::kApply).size() < fewest);
  CHECK(of_kind(*other, StepKind::kApply).size() == 5);  // 12 minutes of 15
}

TEST_CASE("Later batches are small enough for the warmer air of their own", "[plan]") {
  // Mild at eight, warm at eleven: a batch that lasts at the first stroke dies in the last.
  for (const double square_metres : {8.0, 10.0, 14.0, 18.0}) {
    const Case one =
        case_of(epoxy_alone(), square_metres, "8:00 20C 45%; 11:00 29.5C 40%; 22:00 20C 45%");
    INFO(square_metres);
    const auto plan = make_plan(one.request, book(), one.air);
    REQUIRE(plan);
    CHECK(plan->complete);
    check_plan(*plan, one);
  }
}

TEST_CASE("A plan says when no batch is small enough", "[plan]") {
  const Case one = case_of(epoxy_alone(), 200.0, "0:00 22C 40%", "Mon-Sun 0:00-24:00");
  const auto plan = make_plan(one.request, book(), one.air);
  REQUIRE(plan);
  CHECK_FALSE(plan->complete);
  CHECK_FALSE(plan->fits);
  CHECK(reasons(*plan).find("no batch for the piece is small enough") != std::string::npos);
  CHECK(of_kind(*plan, StepKind::kApply).empty());
}

TEST_CASE("Plans with two-part products keep every rule by a second reckoning", "[plan]") {
  for (const char* name : {"epoxy-sealed-varnish", "two-part-polyurethane", "conversion-varnish"}) {
    const Schedule& schedule = **book().schedule_for(name, {*book().species("white-oak"), {}, {}});
    for (const char* day : {"0:00 22C 45%", "6:00 19C 50%; 14:00 27C 40%; 22:00 20C 45%"}) {
      for (const double square_metres : {0.5, 7.0}) {
        const Case one = case_of(schedule, square_metres, day);
        INFO(name << ", " << day << ", " << square_metres);
        const auto plan = make_plan(one.request, book(), one.air);
        REQUIRE(plan);
        CHECK(plan->complete);
        check_plan(*plan, one);
        for (const PlanStep* step : of_kind(*plan, StepKind::kApply)) {
          const bool waits = std::any_of(step->after.begin(), step->after.end(), [](const Wait& w) {
            return w.stage == "pot life";
          });
          CHECK(waits == (**book().product(step->product)).mix.has_value());
        }
      }
    }
  }
}

TEST_CASE("A plan goes on after a logged coat of epoxy in batches", "[plan]") {
  const Schedule& schedule =
      **book().schedule_for("epoxy-sealed-varnish", {*book().species("white-oak"), {}, {}});
  Case one = case_of(schedule, 9.0, "0:00 24C 45%");
  const auto whole = make_plan(one.request, book(), one.air);
  REQUIRE(whole);
  REQUIRE(whole->complete);
  std::size_t last = 0;
  for (std::size_t i = 0; i < whole->steps.size(); ++i) {
    last = whole->steps[i].product == "epoxy-sealer" ? i : last;
  }
  one.request.piece.log = log_of(*whole, last + 1);
  one.request.from = whole->steps[last].end;
  const auto rest = make_plan(one.request, book(), one.air);
  REQUIRE(rest);
  check_plan(*rest, one);
  CHECK(rest->finish == whole->finish);
  for (const PlanStep& step : rest->steps) {
    CHECK((step.done || step.product != "epoxy-sealer"));
  }
}
