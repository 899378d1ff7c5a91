// The shop's air while a fan draws outdoor air in, against a mass balance stepped through here in
// ten seconds at a time.
#include "air/fanned_air.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include <catch2/catch.hpp>

using namespace coatwright;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

namespace {

const Time kNine = parse_rfc3339("2027-01-18T09:00:00-05:00").value();
const Interval kKnown = {kNine - hours(24), kNine + hours(48)};

Zone zone() {
  return *Zone::find("America/New_York");
}

AirRecord usual(const std::string& day) {
  return {{}, *UsualDay::parse(day), zone()};
}

AirEntry entry(Time at, double celsius, double percent, AirOrigin origin) {
  return {at, Temperature::from_celsius(celsius), RelativeHumidity::from_percent(percent), origin};
}

/// Vapour pressure over water in hPa. EVIDENCE: buck1981 eq. 8 (ew4), another fit than the
/// program's; the two agree within 0.1 % from 0 to 30 C.
double buck_hectopascal(double celsius) {
  return 6.1121 * std::exp((18.729 - celsius / 227.3) * celsius / (celsius + 257.87));
}

/// Grams of vapour in a kilogram of dry air.
double grams(double celsius, double humidity) {
  const double vapour = humidity * buck_hectopascal(celsius);
  return 621.98 * vapour / (1013.25 - vapour);
}

struct Mixed {
  double celsius;
  double grams;
};

Mixed mixed_of(const AirRecord& air, Time at) {
  const AirState state = air.at(at);
  return {state.temperature.celsius(),
          grams(state.temperature.celsius(), state.humidity.fraction())};
}

/// The room stepped through from before the first run on.
Mixed stepped(const AirRecord& shop,
              const AirRecord& outdoors,
              const std::vector<Interval>& runs,
              double changes_per_hour,
              Time until) {
  constexpr double kHours = 10.0 / 3600.0;
  Time at = runs.front().start;
  Mixed room = mixed_of(shop, at);
  for (; at < until; at += seconds(10)) {
    const bool fan = std::any_of(runs.begin(), runs.end(), [at](const Interval& run) {
      return run.start <= at && at < run.end;
    });
    Mixed goal = mixed_of(shop, at);
    if (fan) {
      const Mixed drawn_in = mixed_of(outdoors, at);
      goal = {(goal.celsius + drawn_in.celsius) / 2.0, drawn_in.grams};
    }
    const double change = kHours * (fan ? changes_per_hour : 1.0);
    room.celsius += change * (goal.celsius - room.celsius);
    room.grams += change * (goal.grams - room.grams);
  }
  return room;
}

void check_same(const AirRecord& air, const AirRecord& expected, Interval within) {
  for (Time at = within.start; at <= within.end; at += minutes(10)) {
    INFO(show_utc(at));
    const AirState is = air.at(at);
    const AirState was = expected.at(at);
    CHECK(is.temperature.celsius() == Approx(was.temperature.celsius()).margin(1e-6));
    CHECK(is.humidity.percent() == Approx(was.humidity.percent()).margin(1e-6));
    CHECK(is.origin == was.origin);
  }
}

const AirRecord& winter() {
  static const AirRecord kWinter = usual("6:00 -8C 80%; 15:00 2C 55%");
  return kWinter;
}

const AirRecord& heated() {
  static const AirRecord kHeated = usual("6:00 17C 45%; 14:00 21C 40%; 22:00 18C 45%");
  return kHeated;
}

}  // namespace

TEST_CASE("The fan's air follows the mass balance stepped through in ten seconds", "[air]") {
  const std::vector<Interval> runs = {{kNine, kNine + minutes(95)}};
  for (const double changes : {0.3, 2.0, 9.4}) {
    const AirRecord air = fanned(heated(), winter(), runs, changes, kKnown);
    for (const int minute : {5, 20, 60, 95, 120, 200, 330}) {
      INFO(changes << " changes an hour, after " << minute << " minutes");
      const Time at = kNine + minutes(minute);
      const Mixed expected = stepped(heated(), winter(), runs, changes, at);
      const Mixed is = mixed_of(air, at);
      CHECK(is.celsius == Approx(expected.celsius).margin(0.06));
      CHECK(is.grams == Approx(expected.grams).margin(0.03));
      CHECK(air.at(at).origin == AirOrigin::kForecast);
    }
  }
}

TEST_CASE("A run on the way back from the one before begins from where the air then is", "[air]") {
  // In the first the second run begins on a step of the first, in the others between two.
  for (const int begins : {120, 122, 185}) {
    const std::vector<Interval> runs = {{kNine, kNine + minutes(60)},
                                        {kNine + minutes(begins), kNine + minutes(begins + 45)}};
    const AirRecord air = fanned(heated(), winter(), runs, 3.0, kKnown);
    for (const int minute : {60, 100, begins - 5, begins, begins + 15, begins + 45, begins + 120}) {
      INFO("second run after " << begins << " minutes, looked at after " << minute);
      const Time at = kNine + minutes(minute);
      const Mixed expected = stepped(heated(), winter(), runs, 3.0, at);
      const Mixed is = mixed_of(air, at);
      CHECK(is.celsius == Approx(expected.celsius).margin(0.06));
      CHECK(is.grams == Approx(expected.grams).margin(0.03));
    }
    // From then on it is no better than where it was: it has not come back yet.
    CHECK(air.at(kNine + minutes(begins)).temperature < heated().at(kNine).temperature);
  }
}

TEST_CASE("Next to no air changed leaves the shop's, and very much of it brings the outdoor air",
          "[air]") {
  const std::vector<Interval> runs = {{kNine, kNine + hours(2)}};
  const AirRecord hardly = fanned(heated(), winter(), runs, 1e-6, kKnown);
  const AirRecord strongly = fanned(heated(), winter(), runs, 1e4, kKnown);
  for (const int minute : {10, 60, 115}) {
    const Time at = kNine + minutes(minute);
    const Mixed shop = mixed_of(heated(), at);
    const Mixed outdoors = mixed_of(winter(), at);
    // The room follows a rising goal by steps of five minutes.
    CHECK(mixed_of(hardly, at).celsius == Approx(mixed_of(heated(), kNine).celsius).margin(1e-3));
    CHECK(mixed_of(strongly, at).celsius ==
          Approx((shop.celsius + outdoors.celsius) / 2.0).margin(0.1));
    CHECK(mixed_of(strongly, at).grams == Approx(outdoors.grams).margin(0.02));
  }
}

TEST_CASE("What was measured stays, and the fan's air goes on from it", "[air]") {
  std::vector<AirEntry> entries;
  for (int minute = -60; minute <= 30; minute += 10) {
    entries.push_back(
        entry(kNine + minutes(minute), 16.0 - minute / 30.0, 38.0, AirOrigin::kLogger));
  }
  entries.push_back(entry(kNine + hours(9), 19.3, 44.0, AirOrigin::kReading));  // alone
  const AirRecord shop(entries, heated().usual_day(), zone());
  const std::vector<Interval> runs = {{kNine, kNine + hours(4)}};
  const AirRecord air = fanned(shop, winter(), runs, 2.0, kKnown);
  for (const AirEntry& measured : entries) {
    INFO(show_utc(measured.at));
    CHECK(air.at(measured.at).temperature.celsius() == Approx(measured.temperature.celsius()));
    CHECK(air.at(measured.at).humidity.percent() == Approx(measured.humidity.percent()));
    CHECK(air.at(measured.at).origin == measured.origin);
  }
  // Two hours after the last of the logger's the fan's air rules, from that on.
  const Time last = kNine + minutes(30);
  const Time later = last + hours(2);
  Mixed room{15.0, grams(15.0, 0.38)};
  for (Time at = last; at < later; at += seconds(10)) {
    const Mixed without = mixed_of(shop, at);
    const Mixed drawn_in = mixed_of(winter(), at);
    const double change = 2.0 * 10.0 / 3600.0;
    room.celsius += change * ((without.celsius + drawn_in.celsius) / 2.0 - room.celsius);
    room.grams += change * (drawn_in.grams - room.grams);
  }
  CHECK(mixed_of(air, later).celsius == Approx(room.celsius).margin(0.1));
  CHECK(mixed_of(air, later).grams == Approx(room.grams).margin(0.05));
}

TEST_CASE("Outside of the fan's hours and what comes back after them nothing changes", "[air]") {
  const std::vector<Interval> runs = {{kNine, kNine + hours(2)}};
  const Interval before = {kNine - hours(20), kNine - minutes(1)};
  const Interval after = {kNine + hours(9), kNine + hours(40)};
  SECTION("the usual day; next to a known hour it runs linearly into it") {
    const AirRecord flat = usual("0:00 20C 45%");
    const AirRecord air = fanned(flat, winter(), runs, 3.0, kKnown);
    check_same(air, flat, {before.start, kNine - hours(4)});
    check_same(air, flat, after);
    CHECK(air.at(kNine - minutes(10)).temperature.celsius() == Approx(20.0));
  }
  SECTION("a forecast of the shop") {
    std::vector<AirEntry> entries;
    for (int hour = -24; hour <= 48; ++hour) {
      entries.push_back(
          entry(kNine + hours(hour), 18.0 + 2.0 * std::sin(hour), 50.0, AirOrigin::kForecast));
    }
    const AirRecord shop(entries, heated().usual_day(), zone());
    const AirRecord air = fanned(shop, winter(), runs, 3.0, kKnown);
    check_same(air, shop, before);
    check_same(air, shop, after);
  }
  SECTION("outdoor air turned into shop air; over 90 minutes it runs into the fan's hours") {
    std::vector<AirEntry> entries;
    for (int hour = -24; hour <= 48; ++hour) {
      entries.push_back(
          entry(kNine + hours(hour), -2.0 + 5.0 * std::sin(hour), 70.0, AirOrigin::kOutdoors));
    }
    const AirRecord shop(entries, heated().usual_day(), zone());
    const AirRecord air = fanned(shop, winter(), runs, 3.0, kKnown);
    check_same(air, shop, {before.start, kNine - hours(2)});
    check_same(air, shop, after);
  }
}

TEST_CASE("No fan brings the air above saturation", "[air]") {
  const AirRecord damp = usual("0:00 29C 98%");
  const AirRecord cold = usual("0:00 12C 95%");
  const std::vector<Interval> runs = {{kNine, kNine + hours(3)}};
  const AirRecord air = fanned(cold, damp, runs, 5.0, kKnown);
  double most = 0.0;
  for (Time at = kNine - hours(2); at < kNine + hours(9); at += minutes(1)) {
    most = std::max(most, air.at(at).humidity.fraction());
  }
  CHECK(most <= 1.0);
  CHECK(most > 0.999);
}
