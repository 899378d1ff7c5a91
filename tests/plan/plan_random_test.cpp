#include <random>

#include <catch2/catch.hpp>

#include "plan/plan_checker.h"
#include "plan/plan_requests.h"

using namespace coatwright;
using namespace asked;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

namespace {

/// A case drawn at random, with all that lives as long as its request.
struct Drawn {
  Zone zone;
  PlanRequest request;
  AirRecord air;
  std::string schedule;
};

class Dice {
 public:
  explicit Dice(unsigned number) : engine_(number) {}
  // The standard distributions differ between libraries; these do not.
  double between(double low, double high) {
    return low + (high - low) * static_cast<double>(engine_()) / 4294967295.0;
  }
  int below(int count) { return static_cast<int>(engine_() % static_cast<unsigned>(count)); }
  template <class T>
  T one_of(const std::vector<T>& of) {
    return of[static_cast<std::size_t>(below(static_cast<int>(of.size())))];
  }

 private:
  std::mt19937 engine_;
};

std::string some_week(Dice& dice) {
  switch (dice.below(4)) {
    case 0:
      return "Mon-Fri 8:00-17:00; Sat 9:00-13:00";
    case 1:
      return "Mon-Sun 7:00-12:00, 13:00-19:00";
    case 2: {
      const int start = 6 + dice.below(5);
      return fmt::format("Mon-Fri {}:{:02}-{}:30; Sun 14:00-18:00",
                         start,
                         5 * dice.below(12),
                         start + 4 + dice.below(6));
    }
    default:
      return "Mon 16:00-22:00; Wed-Fri 16:00-22:00; Sat-Sun 8:00-20:00";
  }
}

/// Entries that swing by day and wander, with gaps, cold and damp stretches.
std::vector<AirEntry> some_entries(Dice& dice, Time from) {
  std::vector<AirEntry> entries;
  double middle = dice.between(15.0, 22.0);
  double humidity = dice.between(35.0, 60.0);
  const int days = dice.below(9);
  for (Time at = from - hours(8); at < from + hours(24 * days);
       at += minutes(30 + dice.below(90))) {
    if (dice.below(40) == 0) {
      at += hours(3 + dice.below(9));  // the logger was off
    }
    if (dice.below(60) == 0) {
      middle = dice.between(7.0, 24.0);
      humidity = dice.between(30.0, 90.0);
    }
    const double day =
        std::sin(static_cast<double>(at.time_since_epoch().count()) / 86400.0 * 6.2832);
    entries.push_back(
        forecast(at,
                 middle + 4.0 * day + dice.between(-0.5, 0.5),
                 std::clamp(humidity - 10.0 * day + dice.between(-3.0, 3.0), 15.0, 99.0)));
  }
  return entries;
}

Drawn draw(unsigned number) {
  Dice dice(number);
  // The clocks are changed on 14 March 2027 in New York and on 28 March in Europe.
  const std::vector<std::string> zones = {
      "America/New_York", "Europe/Berlin", "Australia/Brisbane"};
  const Zone where = zone(dice.one_of(zones));
  const Time from =
      at("2027-03-08T00:00:00Z") + minutes(5 * dice.below(12 * 24 * 16)) + minutes(dice.below(5));
  Asked one;
  one.schedule = dice.one_of(book().schedule_names());
  one.square_metres = dice.between(0.2, 6.0);
  one.faces = dice.one_of<Faces>({Faces::kOne, Faces::kTwo, Faces::kOnPoints});
  one.confidence = dice.between(0.6, 0.97);
  one.week = some_week(dice);
  one.given_up_after = hours(24 * 14);
  Drawn drawn{where,
              request(one, from, from + hours(24 * (3 + dice.below(9))), where),
              {some_entries(dice, from),
               *UsualDay::parse(fmt::format("6:00 {:.1f}C 55%; 14:00 {:.1f}C {}%; 22:00 15C 50%",
                                            dice.between(8.0, 18.0),
                                            dice.between(17.0, 29.0),
                                            35 + dice.below(30))),
               where},
              one.schedule};
  drawn.request.piece.species = *book().species(dice.one_of(*book().species_names()));
  return drawn;
}

std::string in_words(unsigned number, const Drawn& drawn) {
  return fmt::format("case {}: {} in {}, {:.2f} m2, faces {}, from {}, confidence {:.3f}",
                     number,
                     drawn.schedule,
                     drawn.zone.name(),
                     drawn.request.piece.area.square_metres(),
                     static_cast<int>(drawn.request.piece.faces),
                     show_utc(drawn.request.from),
                     drawn.request.confidence);
}

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

/// `b` does not end before `a`; a plan that stops half-way counts as endless.
bool not_earlier(const Plan& b, const Plan& a) {
  return !b.finish || (a.finish && *b.finish >= *a.finish);
}

}  // namespace

TEST_CASE("Random plans keep every rule by a second reckoning", "[plan]") {
  int complete = 0;
  int abraded = 0;
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
  }
  // Cases that all stop half-way or never abrade would prove little.
  CHECK(complete > 60);
  CHECK(abraded > 20);
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
