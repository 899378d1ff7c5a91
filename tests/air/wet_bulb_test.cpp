#include "air/wet_bulb.h"

#include <catch2/catch.hpp>

using namespace coatwright;

namespace {

Temperature celsius(double value) {
  return Temperature::from_celsius(value);
}
RelativeHumidity percent(double value) {
  return RelativeHumidity::from_percent(value);
}

}  // namespace

TEST_CASE("A wet bulb of worked examples comes out", "[air]") {
  // EVIDENCE: ashrae2017 ch. 1 example 1: 40 C with a wet bulb of 20 C holds 0.0065, 14 % RH
  const auto ratio = humidity_ratio_from_wet_bulb(celsius(40), celsius(20));
  CHECK(ratio.kg_per_kg() == Approx(0.0065).margin(0.0001));
  CHECK(wet_bulb(celsius(40), percent(14)).celsius() == Approx(20).margin(0.3));
  // EVIDENCE: felder_rousseau solution 8.72, chart: 40 C with a dew point of 20 C, 25.5 C
  const auto humidity = percent(100.0 * saturation_pressure_over_water(celsius(20)).pascal() /
                                saturation_pressure_over_water(celsius(40)).pascal());
  CHECK(wet_bulb(celsius(40), humidity).celsius() == Approx(25.5).margin(0.2));
}

TEST_CASE("Thinner air has a lower wet bulb", "[air]") {
  // EVIDENCE: psychrolib_npm, 20 C and 40 % at sea level and 1500 m, own run
  CHECK(wet_bulb(celsius(20), percent(40)).celsius() == Approx(12.3551).margin(0.001));
  CHECK(wet_bulb(celsius(20), percent(40), Pressure::from_pascal(84555.93)).celsius() ==
        Approx(11.7870).margin(0.001));
}

TEST_CASE("The humidity ratio comes back from the wet bulb", "[air]") {
  // Consistency check: round trips, at altitude too; not where air is damper than ice allows.
  for (const double pascal : {101325.0, 84556.0}) {
    const auto pressure = Pressure::from_pascal(pascal);
    for (double t = -20; t <= 50; t += 2.5) {
      for (double rh = 0; rh <= 80; rh += 8) {
        CAPTURE(pascal, t, rh);
        const auto bulb = wet_bulb(celsius(t), percent(rh), pressure);
        const auto wanted =
            humidity_ratio_from_relative_humidity(celsius(t), percent(rh), pressure);
        CHECK(humidity_ratio_from_wet_bulb(celsius(t), bulb, pressure).kg_per_kg() ==
              Approx(wanted.kg_per_kg()).margin(1e-8).epsilon(0));
      }
    }
  }
}

TEST_CASE("Where a wet and an iced bulb both fit, the wet one is given", "[air]") {
  // Consistency check of a choice: at 8 C and 12 % an iced bulb just below 0 C fits the equations
  // too; the choice is judgement, an ice-free wick.
  const auto air = celsius(8);
  const auto ratio = humidity_ratio_from_relative_humidity(air, percent(12));
  CHECK(humidity_ratio_from_wet_bulb(air, celsius(0)) < ratio);
  CHECK(humidity_ratio_from_wet_bulb(air, celsius(-1e-9)) > ratio);
  CHECK(wet_bulb(air, percent(12)) > celsius(0));
}

TEST_CASE("Air damper than ice allows has its own temperature as wet bulb", "[air]") {
  // EVIDENCE: definition: at -10 C ice keeps 259.9 Pa and water 286.5 Pa, so 95 % over water is
  // more than saturated over ice
  CHECK(wet_bulb(celsius(-10), percent(95)).celsius() == Approx(-10).margin(1e-6));
  CHECK(wet_bulb(celsius(-10), percent(85)) < celsius(-10));
}

TEST_CASE("A wet bulb that no air can have gives a negative ratio", "[air]") {
  // EVIDENCE: ashrae2017 ch. 1 eq. 33: even dry air of 40 C wets a bulb above 5 C
  CHECK(humidity_ratio_from_wet_bulb(celsius(40), celsius(5)).kg_per_kg() < 0.0);
}
