#include "air/air_record.h"

#include <algorithm>

#include <catch2/catch.hpp>

#include "base/quantity_text.h"

using namespace coatwright;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

namespace {

Zone zone_named(const std::string& name) {
  return Zone::find(name).value();
}
Time utc(const char* text) {
  return parse_rfc3339(text).value();
}
Temperature celsius(double value) {
  return Temperature::from_celsius(value);
}
RelativeHumidity percent(double value) {
  return RelativeHumidity::from_percent(value);
}

AirEntry entry(Time at, double c, double rh, AirOrigin origin = AirOrigin::kReading) {
  return {at, celsius(c), percent(rh), origin};
}

// A usual day that no entry of the tests comes near, so that it shows where it is used.
UsualDay mild() {
  return UsualDay::constant(celsius(20), percent(50));
}

AirRecord record(std::vector<AirEntry> entries) {
  return AirRecord(std::move(entries), mild(), zone_named("UTC"));
}

const Time kNoon = utc("2027-01-12T12:00:00Z");

}  // namespace

TEST_CASE("Each origin of air has its name", "[air]") {
  // Consistency check of the words that the store and the plan's JSON use.
  CHECK(name_of(AirOrigin::kReading) == "reading");
  CHECK(name_of(AirOrigin::kLogger) == "logger");
  CHECK(name_of(AirOrigin::kForecast) == "forecast");
  CHECK(name_of(AirOrigin::kOutdoors) == "outdoors");
  CHECK(name_of(AirOrigin::kUsualDay) == "usual day");
}

TEST_CASE("Temperature and humidity ratio run linearly between two readings", "[air]") {
  // EVIDENCE: worked by hand from iapws_if97 pressures 2339.21 Pa (20 C), 1228.18 Pa (10 C) and
  // crc1992 1705.6 Pa (15 C): W = 0.0072630 and 0.0037924, mean 0.0055277, so 892.6 Pa, 52.3 %.
  const auto air = record({entry(kNoon, 20, 50), entry(kNoon + hours(3), 10, 50)});
  const auto middle = air.at(kNoon + minutes(90));
  CHECK(middle.temperature.celsius() == Approx(15));
  CHECK(middle.humidity.percent() == Approx(52.33).margin(0.05));
  CHECK(middle.origin == AirOrigin::kReading);
  const auto knots = air.knots(kNoon, kNoon + hours(3));
  REQUIRE(knots.size() == 2);
  CHECK(knots[0].ratio.kg_per_kg() == Approx(0.0072630).epsilon(1e-3));
  CHECK(knots[1].ratio.kg_per_kg() == Approx(0.0037924).epsilon(1e-3));
}

TEST_CASE("Humidity is capped where the line between two readings runs through fog", "[air]") {
  // EVIDENCE: worked by hand from iapws_if97 pressures 3169.75 Pa (25 C) and 872.57 Pa (5 C): W at
  // 95 % is 0.01905 and 0.00513, mean 0.01209; air of 15 C holds 0.01065 (crc1992 1705.6 Pa).
  const auto air = record({entry(kNoon, 25, 95), entry(kNoon + hours(2), 5, 95)});
  const auto middle = air.at(kNoon + hours(1));
  CHECK(middle.temperature.celsius() == Approx(15));
  CHECK(middle.humidity.fraction() == 1.0);
  CHECK(middle.spread().kelvin() == Approx(0).margin(1e-6));
  CHECK(air.knots(kNoon + hours(1), kNoon + hours(2)).front().ratio.kg_per_kg() ==
        Approx(0.01209).epsilon(1e-3));
}

TEST_CASE("An air state carries its dew point", "[air]") {
  // EVIDENCE: uk_weather_station_table: 20 C and 60 % give 12.0 C
  const auto state = record({entry(kNoon, 20, 60)}).at(kNoon);
  CHECK(state.dew_point.celsius() == Approx(12.0).margin(0.1));
  CHECK(state.spread().kelvin() == Approx(8.0).margin(0.1));
}

TEST_CASE("Three hours between readings are bridged and a minute more is not", "[air]") {
  // Consistency check of the stated limit of 3 h: judgement, no source.
  const auto bridged = record({entry(kNoon, 30, 50), entry(kNoon + hours(3), 30, 50)});
  CHECK(bridged.at(kNoon + minutes(90)).temperature.celsius() == Approx(30));
  CHECK(bridged.at(kNoon + minutes(90)).origin == AirOrigin::kReading);

  const auto gap = record({entry(kNoon, 30, 50), entry(kNoon + minutes(181), 30, 50)});
  CHECK(gap.at(kNoon + minutes(90)).temperature.celsius() == Approx(20));
  CHECK(gap.at(kNoon + minutes(91)).temperature.celsius() == Approx(20));
  CHECK(gap.at(kNoon + minutes(90)).origin == AirOrigin::kUsualDay);
  CHECK(gap.at(kNoon + minutes(181)).temperature.celsius() == Approx(30));
}

TEST_CASE("Air runs into the usual day and out of it over ninety minutes", "[air]") {
  // EVIDENCE: worked by hand: half of the way from 30 C to the usual 20 C is 25 C
  const auto air = record({entry(kNoon, 30, 50), entry(kNoon + hours(10), 10, 50)});
  const auto temperature = [&](minutes after) {
    return air.at(kNoon + after).temperature.celsius();
  };
  CHECK(temperature(minutes(-90)) == Approx(20));
  CHECK(temperature(minutes(-45)) == Approx(25));
  CHECK(temperature(minutes(0)) == Approx(30));
  CHECK(temperature(minutes(45)) == Approx(25));
  CHECK(temperature(minutes(90)) == Approx(20));
  CHECK(temperature(minutes(300)) == Approx(20));
  CHECK(temperature(minutes(510)) == Approx(20));
  CHECK(temperature(minutes(555)) == Approx(15));
  CHECK(temperature(minutes(600)) == Approx(10));
  CHECK(temperature(minutes(645)) == Approx(15));
  CHECK(temperature(minutes(690)) == Approx(20));
}

TEST_CASE("A stretch that touches the usual day is marked, a reading's own moment is not",
          "[air]") {
  // Consistency check of a house rule: judgement, no source.
  const auto air = record({entry(kNoon, 30, 50)});
  CHECK(air.at(kNoon - minutes(1)).origin == AirOrigin::kUsualDay);
  CHECK(air.at(kNoon).origin == AirOrigin::kReading);
  CHECK(air.at(kNoon + minutes(1)).origin == AirOrigin::kUsualDay);
  for (const AirKnot& knot : air.knots(kNoon - hours(4), kNoon + hours(4))) {
    CHECK(knot.origin == AirOrigin::kUsualDay);
  }
}

TEST_CASE("A stretch between two origins has that of its start", "[air]") {
  // Consistency check of a house rule: judgement, no source.
  const auto air = record({entry(kNoon, 20, 50, AirOrigin::kLogger),
                           entry(kNoon + hours(2), 22, 50, AirOrigin::kForecast),
                           entry(kNoon + hours(4), 24, 50, AirOrigin::kForecast)});
  CHECK(air.at(kNoon + minutes(119)).origin == AirOrigin::kLogger);
  CHECK(air.at(kNoon + minutes(120)).origin == AirOrigin::kForecast);
  CHECK(air.at(kNoon + minutes(121)).origin == AirOrigin::kForecast);
}

TEST_CASE("A more trusted origin is used alone where it reaches", "[air]") {
  // EVIDENCE: worked by hand: the reading covers 10:30 to 13:30, both included, so of the hourly
  // forecast of 40 C the hours 11, 12 and 13 are not used, nor that of 13:30.
  std::vector<AirEntry> entries = {entry(kNoon, 10, 50)};
  for (int hour = -3; hour <= 3; ++hour) {
    entries.push_back(entry(kNoon + hours(hour), 40, 30, AirOrigin::kForecast));
  }
  entries.push_back(entry(kNoon + minutes(90), 40, 30, AirOrigin::kForecast));
  const auto air = record(entries);
  CHECK(air.at(kNoon - hours(2)).temperature.celsius() == Approx(40));
  CHECK(air.at(kNoon - hours(1)).temperature.celsius() == Approx(25));
  CHECK(air.at(kNoon).temperature.celsius() == Approx(10));
  CHECK(air.at(kNoon + hours(1)).temperature.celsius() == Approx(25));
  CHECK(air.at(kNoon + minutes(90)).temperature.celsius() == Approx(32.5));
  CHECK(air.at(kNoon + hours(2)).temperature.celsius() == Approx(40));
}

TEST_CASE("Readings and logger entries stand side by side, forecast before outdoors", "[air]") {
  // EVIDENCE: worked by hand
  const auto air = record({entry(kNoon, 10, 50),
                           entry(kNoon + hours(1), 14, 50, AirOrigin::kLogger),
                           entry(kNoon + hours(6), 24, 50, AirOrigin::kForecast),
                           entry(kNoon + hours(7), 35, 50, AirOrigin::kOutdoors),
                           entry(kNoon + hours(8), 34, 50, AirOrigin::kOutdoors)});
  CHECK(air.at(kNoon + minutes(30)).temperature.celsius() == Approx(12));
  CHECK(air.at(kNoon + hours(1)).origin == AirOrigin::kLogger);
  CHECK(air.at(kNoon + hours(7)).temperature.celsius() == Approx(29));
  CHECK(air.at(kNoon + hours(8)).temperature.celsius() == Approx(34));
}

TEST_CASE("A forecast that is not used covers nothing itself", "[air]") {
  // EVIDENCE: worked by hand: the forecast of 13:00 is within the reading's reach; the outdoor air
  // of 14:00 is not.
  const auto air = record({entry(kNoon, 25, 50),
                           entry(kNoon + hours(1), 40, 50, AirOrigin::kForecast),
                           entry(kNoon + hours(2), 35, 50, AirOrigin::kOutdoors)});
  CHECK(air.at(kNoon + hours(2)).origin == AirOrigin::kOutdoors);
  CHECK(air.at(kNoon + hours(1)).temperature.celsius() == Approx(30));
}

TEST_CASE("Of entries at one moment the reading counts, and of two readings the last", "[air]") {
  // Consistency check of a house rule: judgement, no source.
  const auto air = record({entry(kNoon, 11, 50),
                           entry(kNoon, 12, 50),
                           entry(kNoon, 13, 50, AirOrigin::kLogger),
                           entry(kNoon, 14, 50, AirOrigin::kForecast)});
  CHECK(air.at(kNoon).temperature.celsius() == Approx(12));
  CHECK(air.at(kNoon).origin == AirOrigin::kReading);
}

TEST_CASE("Outdoor air is warmed to the shop's usual temperature and keeps its vapour", "[air]") {
  // EVIDENCE: worked by hand from crc1992 611.29 Pa (0 C) and iapws_if97 2339.21 Pa (20 C): 80 % at
  // 0 C is 489.0 Pa, which is 20.9 % at 20 C.
  const auto zone = zone_named("UTC");
  const auto cold = entry(kNoon, 0, 80, AirOrigin::kOutdoors);
  const auto warmed = shop_air_from_outdoors(cold, mild(), zone);
  CHECK(warmed.temperature.celsius() == Approx(20));
  CHECK(warmed.humidity.percent() == Approx(20.9).margin(0.05));
  CHECK(warmed.origin == AirOrigin::kOutdoors);
  CHECK(record({cold}).at(kNoon).humidity.percent() == Approx(20.9).margin(0.05));
  CHECK(record({cold}).at(kNoon).temperature.celsius() == Approx(20));
}

TEST_CASE("Outdoor air warmer than the shop stays as it is", "[air]") {
  // EVIDENCE: worked by hand: the rule leaves it unchanged
  const auto hot =
      shop_air_from_outdoors(entry(kNoon, 30, 70, AirOrigin::kOutdoors), mild(), zone_named("UTC"));
  CHECK(hot.temperature.celsius() == Approx(30));
  CHECK(hot.humidity.percent() == Approx(70));
}

TEST_CASE("A record without entries is the usual day", "[air]") {
  // Consistency check
  const auto air = record({});
  CHECK_FALSE(air.has_entries());
  CHECK(record({entry(kNoon, 10, 50)}).has_entries());
  CHECK(air.at(kNoon).temperature.celsius() == Approx(20));
  CHECK(air.at(kNoon).humidity.percent() == Approx(50));
  CHECK(air.at(kNoon).origin == AirOrigin::kUsualDay);
}

TEST_CASE("The corners of a gap are the ends of the ramps and the usual day's hours", "[air]") {
  // EVIDENCE: worked by hand: readings at 12:10 and 16:20, so the ramps end at 13:40 and 14:50
  const auto air =
      record({entry(kNoon + minutes(10), 30, 50), entry(kNoon + minutes(260), 30, 50)});
  std::vector<seconds> at;
  for (const AirKnot& knot : air.knots(kNoon, kNoon + minutes(260))) {
    at.push_back(knot.at - kNoon);
  }
  const std::vector<seconds> expected = {
      minutes(0), minutes(10), minutes(100), minutes(120), minutes(170), minutes(260)};
  CHECK(at == expected);
}

TEST_CASE("Corners include both ends, interpolated, and one moment has one corner", "[air]") {
  // EVIDENCE: worked by hand: a third and two thirds of the way from 10 C to 22 C
  const auto air = record({entry(kNoon, 10, 50), entry(kNoon + hours(3), 22, 50)});
  const auto knots = air.knots(kNoon + hours(1), kNoon + hours(2));
  REQUIRE(knots.size() == 2);
  CHECK(knots.front().at == kNoon + hours(1));
  CHECK(knots.front().temperature.celsius() == Approx(14));
  CHECK(knots.back().at == kNoon + hours(2));
  CHECK(knots.back().temperature.celsius() == Approx(18));
  REQUIRE(air.knots(kNoon, kNoon).size() == 1);
  CHECK(air.knots(kNoon, kNoon).front().temperature.celsius() == Approx(10));
}
