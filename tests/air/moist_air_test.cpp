#include "air/moist_air.h"

#include <catch2/catch.hpp>

using namespace coatwright;

namespace {

Temperature celsius(double value) {
  return Temperature::from_celsius(value);
}
RelativeHumidity percent(double value) {
  return RelativeHumidity::from_percent(value);
}

struct PressureRow {
  double celsius;
  double pascal;
};

void check_over_water(const PressureRow& row, double relative_tolerance) {
  CAPTURE(row.celsius);
  CHECK(saturation_pressure_over_water(celsius(row.celsius)).pascal() ==
        Approx(row.pascal).epsilon(relative_tolerance).margin(0));
}

}  // namespace

TEST_CASE("Saturation pressure over water agrees with the ASHRAE table", "[air]") {
  // EVIDENCE: ashrae2017 ch. 1 table 3, as carried in psychrolib_tests, which state the tolerance.
  for (const PressureRow& row :
       {PressureRow{5, 872.6}, {25, 3169.7}, {50, 12351.3}, {100, 101418.0}, {150, 476101.4}}) {
    check_over_water(row, 3e-4);
  }
}

TEST_CASE("Saturation pressure over ice agrees with the ASHRAE table", "[air]") {
  // EVIDENCE: ashrae2017 ch. 1 table 3, as carried in psychrolib_tests, which state the tolerance.
  CHECK(saturation_pressure_over_ice(celsius(-60)).pascal() == Approx(1.08).margin(0.01));
  CHECK(saturation_pressure_over_ice(celsius(-20)).pascal() == Approx(103.24).epsilon(3e-4));
  CHECK(saturation_pressure_over_ice(celsius(-5)).pascal() == Approx(401.74).epsilon(3e-4));
}

TEST_CASE("Water and ice have the same saturation pressure at the triple point", "[air]") {
  // EVIDENCE: iapws_if97, triple point 273.16 K, 611.657 Pa (the digits from memory)
  const auto triple = Temperature::from_kelvin(273.16);
  CHECK(saturation_pressure_over_water(triple).pascal() == Approx(611.657).epsilon(2e-4));
  CHECK(saturation_pressure_over_ice(triple).pascal() == Approx(611.657).epsilon(2e-4));
  CHECK(saturation_pressure_over_ice(celsius(-10)) < saturation_pressure_over_water(celsius(-10)));
}

TEST_CASE("The dew point agrees with worked examples", "[air]") {
  // EVIDENCE: coating_conditions_guides: 16 C and 71 % give 11 C
  CHECK(dew_point(celsius(16), percent(71)).celsius() == Approx(11).margin(0.5));
  // EVIDENCE: coating_conditions_guides: 70 F and 65 % give 57 F (whole degrees, printed low)
  CHECK(dew_point(Temperature::from_fahrenheit(70), percent(65)).fahrenheit() ==
        Approx(57).margin(1));
  // EVIDENCE: ashrae2017 ch. 1 example 1 (40 C, 14 %: 7 C read from the chart), psychrolib_tests
  CHECK(dew_point(celsius(40), percent(14)).celsius() == Approx(7).margin(0.5));
  // EVIDENCE: ashrae2017 ch. 1 example 1 in inch-pound units (100 F, 13 %: 40 F), psychrolib_tests
  CHECK(dew_point(Temperature::from_fahrenheit(100), percent(13)).fahrenheit() ==
        Approx(40).margin(1));
}

TEST_CASE("The humidity ratio agrees with published values", "[air]") {
  const auto ratio = [](double c, double rh, double pascal) {
    return humidity_ratio_from_relative_humidity(
               celsius(c), percent(rh), Pressure::from_pascal(pascal))
        .kg_per_kg();
  };
  // EVIDENCE: ashrae2017 ch. 1 table 2, as carried in psychrolib_tests, which state the tolerances.
  // The table is for real air, the equation for ideal gases.
  CHECK(ratio(5, 100, 101325) == Approx(0.005425).epsilon(0.005));
  CHECK(ratio(25, 100, 101325) == Approx(0.020173).epsilon(0.005));
  CHECK(ratio(50, 100, 101325) == Approx(0.086863).epsilon(0.01));
  CHECK(ratio(85, 100, 101325) == Approx(0.838105).epsilon(0.02));
  // EVIDENCE: ashrae2017 ch. 1 example 1 (40 C, 14 %: 0.0065), psychrolib_tests
  CHECK(ratio(40, 14, 101325) == Approx(0.0065).margin(0.0001));
  // EVIDENCE: ashrae2017 eq. 20, psychrolib_tests: 3169.7 Pa at 95461 Pa, a spreadsheet value
  const double rh = 100.0 * 3169.7 / saturation_pressure_over_water(celsius(25)).pascal();
  CHECK(ratio(25, rh, 95461) == Approx(0.0213603998047487).epsilon(1e-6));
}

TEST_CASE("Vapour pressure and its deficit agree with published values", "[air]") {
  // EVIDENCE: ashrae2017 ch. 1 table 3 (25 C: 3169.7 Pa), psychrolib_tests: 80 % of it
  CHECK(vapour_pressure(celsius(25), percent(80)).pascal() == Approx(2535.76).epsilon(3e-4));
  CHECK(vapour_pressure_deficit(celsius(25), percent(80)).pascal() == Approx(633.94).epsilon(3e-4));
}

TEST_CASE("Saturated air holds the grams per cubic metre that tables print", "[air]") {
  // EVIDENCE: common-practice, tables of absolute humidity at saturation, values from memory
  CHECK(absolute_humidity_kg_per_m3(celsius(10), percent(100)) == Approx(0.0094).margin(0.0001));
  CHECK(absolute_humidity_kg_per_m3(celsius(20), percent(100)) == Approx(0.0173).margin(0.0001));
  CHECK(absolute_humidity_kg_per_m3(celsius(30), percent(100)) == Approx(0.0304).margin(0.0001));
}

TEST_CASE("Dew and frost point invert the saturation pressure", "[air]") {
  // Consistency check: round trips to the stated accuracy.
  for (double c = -60; c <= 90; c += 0.5) {
    CAPTURE(c);
    const auto over_water = saturation_pressure_over_water(celsius(c));
    CHECK(dew_point_from_vapour_pressure(over_water).celsius() ==
          Approx(c).margin(1e-6).epsilon(0));
    if (c <= 0) {
      const auto over_ice = saturation_pressure_over_ice(celsius(c));
      CHECK(frost_point_from_vapour_pressure(over_ice).celsius() ==
            Approx(c).margin(1e-6).epsilon(0));
    }
  }
}

TEST_CASE("Relative humidity and humidity ratio invert each other", "[air]") {
  // Consistency check: round trips, also at altitude.
  for (const double pascal : {101325.0, 80000.0}) {
    for (double c = -20; c <= 50; c += 5) {
      for (double rh = 0; rh <= 100; rh += 10) {
        CAPTURE(pascal, c, rh);
        const auto p = Pressure::from_pascal(pascal);
        const auto w = humidity_ratio_from_relative_humidity(celsius(c), percent(rh), p);
        CHECK(relative_humidity_from_humidity_ratio(celsius(c), w, p).percent() ==
              Approx(rh).margin(1e-9).epsilon(0));
      }
    }
  }
}

TEST_CASE("Relative humidity is capped at saturation", "[air]") {
  // EVIDENCE: ashrae2017 ch. 1 table 2: 0.020173 saturates air of 25 C, so it more than fills 20 C.
  const auto ratio = HumidityRatio::from_kg_per_kg(0.020173);
  CHECK(relative_humidity_from_humidity_ratio(celsius(20), ratio).fraction() == 1.0);
  CHECK(relative_humidity_from_humidity_ratio(celsius(30), ratio).fraction() < 0.8);
}

TEST_CASE("The dew point of saturated air is its temperature and never above it", "[air]") {
  // EVIDENCE: definition of the dew point
  for (double c = -20; c <= 50; c += 1) {
    CAPTURE(c);
    const auto dew = dew_point(celsius(c), percent(100));
    CHECK(dew <= celsius(c));
    CHECK(dew.celsius() == Approx(c).margin(1e-6).epsilon(0));
  }
}

TEST_CASE("A humidity of nothing has the dew point of 0.1 %", "[air]") {
  // Consistency check of a house rule: judgement, no source.
  CHECK(dew_point(celsius(20), percent(0)) == dew_point(celsius(20), percent(0.1)));
  CHECK(dew_point(celsius(20), percent(0)) < dew_point(celsius(20), percent(0.2)));
}
