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
