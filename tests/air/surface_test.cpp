#include "air/surface.h"

#include <cmath>

#include <catch2/catch.hpp>

using namespace coatwright;
using std::chrono::hours;
using std::chrono::minutes;

namespace {

const Time kNoon = Time(std::chrono::seconds(1804334400));  // 2027-03-06T12:00:00Z

AirEntry entry(Time at, double celsius) {
  return {at,
          Temperature::from_celsius(celsius),
          RelativeHumidity::from_percent(50),
          AirOrigin::kReading};
}

AirRecord air_of(std::vector<AirEntry> entries) {
  const auto usual =
      UsualDay::constant(Temperature::from_celsius(20), RelativeHumidity::from_percent(50));
  return {std::move(entries), usual, Zone::find("UTC").value()};
}

}  // namespace

TEST_CASE("In steady air a board is as warm as the air", "[air]") {
  CHECK(surface_temperature(air_of({}), kNoon).celsius() == Approx(20.0).margin(1e-9));
}

TEST_CASE("A board in steadily warming air lags it by slope times lag", "[air]") {
  // EVIDENCE: definition of the first-order lag: on a long ramp T_s = T_air - slope tau; 3 K/h
  // times 20 min is 1 K, less exp(-6) of it because the board began in step with the air.
  std::vector<AirEntry> ramp;
  for (int hour = 0; hour <= 6; ++hour) {
    ramp.push_back(entry(kNoon - hours(6 - hour), 5.0 + 3.0 * hour));
  }
  const double expected = 23.0 - (1.0 - std::exp(-6.0));
  CHECK(surface_temperature(air_of(ramp), kNoon, minutes(20)).celsius() ==
        Approx(expected).margin(1e-6));
}

TEST_CASE("After a jump of the air a board has 63 % of it behind it in one lag", "[air]") {
  // EVIDENCE: definition of the time constant, 1 - 1/e. The jump takes a second in the record.
  const Time jump = kNoon - minutes(20);
  const AirRecord air = air_of({entry(kNoon - hours(3), 10.0),
                                entry(jump - std::chrono::seconds(1), 10.0),
                                entry(jump, 20.0),
                                entry(kNoon + hours(1), 20.0)});
  CHECK(surface_temperature(air, kNoon, minutes(20)).celsius() ==
        Approx(20.0 - 10.0 / std::exp(1.0)).margin(0.01));
}

TEST_CASE("A board of 20 mm has a lag of twenty minutes", "[air]") {
  // Consistency check: half of 0.02 m times 600 kg/m3 times 1600 J/(kg K) over 8 W/(m2 K).
  CHECK(kBoardLag == minutes(20));
}

TEST_CASE("A piece carried in begins at its own temperature and nears the air", "[air]") {
  // EVIDENCE: definition of the time constant: after one lag 1/e of the difference is left
  const CarriedPiece piece = {Temperature::from_celsius(5), kNoon, minutes(40)};
  const AirRecord air = air_of({});
  CHECK(surface_temperature(air, piece, kNoon).celsius() == Approx(5).margin(1e-9));
  CHECK(surface_temperature(air, piece, kNoon + minutes(40)).celsius() ==
        Approx(20.0 - 15.0 / std::exp(1.0)).margin(1e-6));
  CHECK(surface_temperature(air, piece, kNoon + hours(8)).celsius() == Approx(20).margin(1e-3));
}

TEST_CASE("A cold piece is above the dew point when its difference has decayed to that", "[air]") {
  // EVIDENCE: uk_weather_station_table: air of 20 C and 50 % has a dew point of 9.3 C. From 5 C the
  // surface reaches 12.3 C after lag ln(15/7.7), by the definition of the first-order lag.
  const CarriedPiece piece = {Temperature::from_celsius(5), kNoon, minutes(60)};
  const auto first = first_moment_above_dew_point(
      air_of({}), piece, TemperatureDifference::from_kelvin(3), kNoon + hours(12));
  REQUIRE(first.has_value());
  const double minutes_later = static_cast<double>((*first - kNoon).count()) / 60.0;
  CHECK(minutes_later == Approx(60.0 * std::log(15.0 / 7.7)).margin(1.5));
}

TEST_CASE("A piece that is warm enough may be reckoned with from when it came in", "[air]") {
  // EVIDENCE: definition: its surface is 10.7 C above the dew point
  const CarriedPiece piece = {Temperature::from_celsius(20), kNoon};
  const auto three = TemperatureDifference::from_kelvin(3);
  CHECK(first_moment_above_dew_point(air_of({}), piece, three, kNoon + hours(2)) == kNoon);
}

TEST_CASE("The moment is the one from which the spread is kept, not the first", "[air]") {
  // EVIDENCE: definition: saturated air at hour 5 leaves no surface in step with it 3 C above its
  // dew point; and where the record ends so, there is no moment.
  const auto damp = RelativeHumidity::from_percent(100);
  const auto dry = RelativeHumidity::from_percent(40);
  const auto at = [](int hour, RelativeHumidity humidity) {
    return AirEntry{
        kNoon + hours(hour), Temperature::from_celsius(20), humidity, AirOrigin::kReading};
  };
  const AirRecord air = air_of({at(0, dry), at(2, dry), at(4, dry), at(5, damp), at(6, dry)});
  const CarriedPiece piece = {Temperature::from_celsius(15), kNoon, minutes(20)};
  const auto three = TemperatureDifference::from_kelvin(3);
  const auto first = first_moment_above_dew_point(air, piece, three, kNoon + hours(8));
  REQUIRE(first.has_value());
  CHECK(*first > kNoon + hours(5));
  CHECK(*first < kNoon + hours(6));
  CHECK(first_moment_above_dew_point(air, piece, three, kNoon + hours(4)) < kNoon + hours(1));
  CHECK_FALSE(first_moment_above_dew_point(air, piece, three, kNoon + hours(5)).has_value());
}
