// Plans in the air that their own fan draws in.
#include "plan/fan_air.h"

#include <algorithm>

#include <catch2/catch.hpp>

#include "air/fanned_air.h"
#include "plan/planner.h"
#include "plan/shop_requests.h"

using namespace coatwright;
using namespace asked;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

namespace {

const Time kMonday = at("2027-01-18T08:00:00-05:00");

FinishingRoom room_with_fan() {
  FinishingRoom room;
  room.volume = AirVolume::from_cubic_metres(90.0);
  room.fan = AirFlow::from_cubic_metres_per_hour(180.0);
  room.rating = FanRating::kRated;
  return room;
}

PlanRequest lacquered(const FinishingRoom& room) {
  Asked asked;
  asked.schedule = "sprayed-lacquer";
  asked.square_metres = 2.0;
  PlanRequest request = asked::request(asked, kMonday, kMonday + hours(24 * 20), zone());
  request.room = room;
  return request;
}

Interval known_of(const PlanRequest& request) {
  return {request.from, request.horizon};
}

AirRecord shop_air() {
  return usual_air("6:00 22C 35%; 14:00 24C 35%", zone());
}

constexpr double kMildCelsius = 12.0;

/// Air that may be drawn in while lacquer sets: half of the way to it is above 16 C.
AirRecord winter() {
  return constant_air(kMildCelsius, 75.0, zone());
}

/// Air that takes the room below what lacquer needs.
AirRecord hard_winter() {
  return constant_air(-5.0, 75.0, zone());
}

Plan planned(const PlanRequest& request, const std::optional<AirRecord>& outdoors) {
  auto plan = plan_in_fan_air([&](const AirRecord& air) { return make_plan(request, book(), air); },
                              shop_air(),
                              outdoors,
                              known_of(request));
  if (!plan) {
    FAIL(plan.error().text());
  }
  return std::move(*plan);
}

std::string in_words(const Plan& plan) {
  std::string text = in_lines(plan);
  for (const PlanWarning& one : plan.warnings) {
    text += one.code + ": " + one.text + "\n";
  }
  return text;
}

const PlanWarning* fan_warning(const Plan& plan) {
  for (const PlanWarning& one : plan.warnings) {
    if (one.code == "fan-air") {
      return &one;
    }
  }
  return nullptr;
}

/// The temperature of the room at a moment, by the mass balance in ten seconds at a time: half of
/// the way to the outdoor one with the fan on, twice the room's air in an hour, and back once in
/// an hour after it.
double stepped_celsius(const std::vector<FanRun>& runs, Time until) {
  const AirRecord shop = shop_air();
  Time at = runs.front().on;
  double celsius = shop.at(at).temperature.celsius();
  for (; at < until; at += seconds(10)) {
    const bool on = std::any_of(runs.begin(), runs.end(), [at](const FanRun& run) {
      return run.on <= at && at < run.off.value();
    });
    const double without = shop.at(at).temperature.celsius();
    const double goal = on ? (without + kMildCelsius) / 2.0 : without;
    celsius += (on ? 2.0 : 1.0) * 10.0 / 3600.0 * (goal - celsius);
  }
  return celsius;
}

}  // namespace

TEST_CASE("In winter a coat's air is that of the fan that runs for it", "[plan]") {
  const PlanRequest request = lacquered(room_with_fan());
  const Plan plan = planned(request, winter());
  INFO(in_words(plan));
  REQUIRE(plan.complete);
  REQUIRE(fan_warning(plan) != nullptr);
  CHECK_THAT(fan_warning(plan)->text, !Catch::Matchers::Contains("did not settle"));
  const auto coats = of_kind(plan, StepKind::kApply);
  REQUIRE(coats.size() == 4);
  int colder = 0;
  for (const PlanStep* step : coats) {
    INFO(show_utc(step->start));
    // The last plan's runs may begin two minutes off those that its air was made of.
    CHECK(step->air.temperature.celsius() ==
          Approx(stepped_celsius(plan.room->runs, step->start)).margin(0.9));
    const AirState without = shop_air().at(step->start);
    colder += (without.temperature - step->air.temperature).kelvin() > 1.0;
    const double inside = without.dew_point.celsius();
    const double outside = winter().at(step->start).dew_point.celsius();
    CHECK(step->air.dew_point.celsius() > std::min(inside, outside) - 0.1);
    CHECK(step->air.dew_point.celsius() < std::max(inside, outside) + 0.1);
  }
  CHECK(colder >= 1);  // a coat that goes on while the fan still runs for the one before
}

TEST_CASE("The fan's hours hold in the air that they make", "[plan]") {
  const PlanRequest request = lacquered(room_with_fan());
  const Plan plan = planned(request, winter());
  std::vector<Interval> runs;
  for (const FanRun& run : plan.room->runs) {
    REQUIRE(run.off.has_value());
    runs.push_back({run.on, *run.off});
  }
  const AirRecord air = fanned(shop_air(), winter(), runs, 2.0, known_of(request));
  const Plan again = make_plan(request, book(), air).value();
  REQUIRE(again.room->runs.size() == runs.size());
  for (std::size_t i = 0; i < runs.size(); ++i) {
    CHECK(std::chrono::abs(again.room->runs[i].on - runs[i].start) <= minutes(2));
    CHECK(std::chrono::abs(*again.room->runs[i].off - runs[i].end) <= minutes(10));
  }
}

TEST_CASE("A coat that its own fan would chill is named, and the plan does not fit", "[plan]") {
  FinishingRoom room = room_with_fan();
  room.fan = AirFlow::from_cubic_metres_per_hour(2000.0);  // the room's air 22 times in an hour
  const Plan plan = planned(lacquered(room), hard_winter());
  INFO(in_words(plan));
  REQUIRE(fan_warning(plan) != nullptr);
  CHECK_FALSE(plan.fits);
  if (plan.complete) {
    CHECK_THAT(plan.hold_ups.front().text, Catch::Matchers::Contains("warm the air that comes in"));
  }
}

TEST_CASE("Cold air drawn in makes the plan no sooner", "[plan]") {
  const PlanRequest request = lacquered(room_with_fan());
  CHECK(planned(request, winter()).finish.value() >= planned(request, std::nullopt).finish.value());
}

TEST_CASE("Without outdoor air, a known room or a fan that counts nothing changes", "[plan]") {
  FinishingRoom no_fan = room_with_fan();
  no_fan.fan.reset();
  FinishingRoom not_rated = room_with_fan();
  not_rated.rating = FanRating::kUnknown;
  FinishingRoom unknown = room_with_fan();
  unknown.volume.reset();
  const std::vector<std::pair<FinishingRoom, std::optional<AirRecord>>> cases = {
      {room_with_fan(), std::nullopt},
      {no_fan, winter()},
      {not_rated, winter()},
      {unknown, winter()}};
  for (const auto& [room, outdoors] : cases) {
    const PlanRequest request = lacquered(room);
    const Plan plan = planned(request, outdoors);
    const AirRecord air = shop_air();
    const Plan plain = make_plan(request, book(), air).value();
    CHECK(in_words(plan) == in_words(plain));
    CHECK(fan_warning(plan) == nullptr);
  }
}

TEST_CASE("The error of a plan that cannot be made is passed on", "[plan]") {
  const PlanRequest request = lacquered(room_with_fan());
  int calls = 0;
  const auto plan = plan_in_fan_air(
      [&](const AirRecord& air) -> Result<Plan> {
        if (++calls == 2) {
          return fail(ErrorCode::kNotFound, "no such product");
        }
        return make_plan(request, book(), air);
      },
      shop_air(),
      winter(),
      known_of(request));
  REQUIRE_FALSE(plan);
  CHECK(plan.error().code == ErrorCode::kNotFound);
  CHECK(calls == 2);
}
