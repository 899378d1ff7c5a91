// Properties of moist air over all the air that a shop can have.
#include <cmath>

#include <catch2/catch.hpp>
#include <rapidcheck.h>

#include "air/atmosphere.h"
#include "air/wet_bulb.h"

using namespace coatwright;

namespace {

struct AnyAir {
  Temperature temperature;
  RelativeHumidity humidity;
  Pressure pressure;
};

/// A number from `low` to `high`, in steps of 1/1000 of the span.
double anywhere(double low, double high) {
  constexpr int kSteps = 1000;
  const int step = *rc::gen::inRange(0, kSteps + 1);
  return low + (high - low) * step / kSteps;
}

AnyAir any_air() {
  const auto temperature = Temperature::from_celsius(anywhere(-40, 60));
  const auto humidity = RelativeHumidity::from_percent(anywhere(0.1, 100));
  return {temperature,
          humidity,
          pressure_at_altitude(Length::from_metres(anywhere(-400, 5000))).value()};
}

constexpr double kSolved = 1e-5;  // K, more than dew point and wet bulb are solved to

}  // namespace

TEST_CASE("The wet bulb lies between dew point and temperature", "[air]") {
  // EVIDENCE: definition of the two
  REQUIRE(rc::check("dew point <= wet bulb <= temperature", [] {
    const AnyAir air = any_air();
    const auto bulb = wet_bulb(air.temperature, air.humidity, air.pressure);
    RC_ASSERT(bulb <= air.temperature);
    RC_ASSERT(bulb.kelvin() >= dew_point(air.temperature, air.humidity).kelvin() - kSolved);
  }));
}

TEST_CASE("Damper air has a higher wet bulb and dew point", "[air]") {
  // EVIDENCE: definition; but where the bulb thaws it passes from ice to water
  REQUIRE(rc::check("both rise with humidity", [] {
    const AnyAir air = any_air();
    const auto drier = RelativeHumidity::from_fraction(air.humidity.fraction() * anywhere(0.1, 1));
    RC_ASSERT(dew_point(air.temperature, drier) <= dew_point(air.temperature, air.humidity));
    RC_ASSERT(wet_bulb(air.temperature, drier, air.pressure).kelvin() <=
              wet_bulb(air.temperature, air.humidity, air.pressure).kelvin() + kSolved);
  }));
}

TEST_CASE("Dew and frost point give the vapour pressure back", "[air]") {
  // Consistency check: round trips
  REQUIRE(rc::check("to a millionth", [] {
    const AnyAir air = any_air();
    const auto vapour = vapour_pressure(air.temperature, air.humidity);
    const auto dew = dew_point_from_vapour_pressure(vapour);
    RC_ASSERT(std::abs(saturation_pressure_over_water(dew).pascal() / vapour.pascal() - 1) < 1e-6);
    if (vapour.pascal() < 611.0) {  // below that of the triple point
      const auto frost = frost_point_from_vapour_pressure(vapour);
      const double again = saturation_pressure_over_ice(frost).pascal();
      RC_ASSERT(std::abs(again / vapour.pascal() - 1) < 1e-6);
      RC_ASSERT(frost >= dew);
    }
  }));
}

TEST_CASE("Humidity and humidity ratio give each other back at any altitude", "[air]") {
  // Consistency check: round trips
  REQUIRE(rc::check("to a thousandth of a percent", [] {
    const AnyAir air = any_air();
    const auto ratio =
        humidity_ratio_from_relative_humidity(air.temperature, air.humidity, air.pressure);
    const auto back = relative_humidity_from_humidity_ratio(air.temperature, ratio, air.pressure);
    RC_ASSERT(std::abs(back.percent() - air.humidity.percent()) < 1e-3);
  }));
}

TEST_CASE("Pressure falls with altitude and is refused beyond the formula", "[air]") {
  // EVIDENCE: ashrae2017 ch. 1 eq. 3, its range
  REQUIRE(rc::check("higher is thinner", [] {
    const double z = anywhere(-5000, 10999);
    RC_ASSERT(pressure_at_altitude(Length::from_metres(z)).value() >
              pressure_at_altitude(Length::from_metres(z + 1)).value());
  }));
  for (const double z : {-5001.0, 11001.0}) {
    const auto refused = pressure_at_altitude(Length::from_metres(z));
    REQUIRE_FALSE(refused.has_value());
    CHECK(refused.error().code == ErrorCode::kOutOfRange);
    CHECK_THAT(refused.error().text(), Catch::Contains("-5000 m to 11000 m"));
  }
}
