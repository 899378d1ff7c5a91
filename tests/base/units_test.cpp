#include "base/units.h"

#include <cmath>

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <rapidcheck.h>

#include "base/quantity_text.h"

using namespace coatwright;

TEST_CASE("Fahrenheit and Celsius meet at the defined points", "[base]") {
  // EVIDENCE: nist_sp811 B.8 (definition of the degree Fahrenheit)
  CHECK(Temperature::from_fahrenheit(32).celsius() == Approx(0.0).margin(1e-12));
  CHECK(Temperature::from_fahrenheit(212).celsius() == Approx(100.0));
  CHECK(Temperature::from_fahrenheit(-40).celsius() == Approx(-40.0));
  CHECK(Temperature::from_celsius(0).kelvin() == 273.15);
}

TEST_CASE("A temperature difference converts without the offset of the scale", "[base]") {
  // EVIDENCE: nist_sp811 B.8 (1 C of difference = 1.8 F)
  const auto difference = Temperature::from_celsius(23) - Temperature::from_celsius(20);
  CHECK(difference.kelvin() == Approx(3.0));
  CHECK(difference.fahrenheit_degrees() == Approx(5.4));
  CHECK((Temperature::from_fahrenheit(60) + difference).fahrenheit() == Approx(65.4));
}

TEST_CASE("Customary units have their defined sizes", "[base]") {
  // EVIDENCE: nist_sp811 B.8: 1 ft2 = 0.09290304 m2, 1 mil = 25.4 um, 1 qt = 0.946352946 L
  CHECK(Area::from_square_feet(1).square_metres() == 0.09290304);
  CHECK(FilmThickness::from_mils(1).micrometres() == 25.4);
  CHECK(Volume::from_us_quarts(1).litres() == Approx(0.946352946).epsilon(1e-12));
  // A gallon is four quarts and 231 cubic inches of 2.54 cm.
  CHECK(Volume::from_us_quarts(4).litres() ==
        Approx(231 * 2.54 * 2.54 * 2.54 / 1000).epsilon(1e-9));
  CHECK(Area::from_square_feet(1).square_metres() == Approx(0.3048 * 0.3048).epsilon(1e-12));
}

TEST_CASE("Lengths have their defined sizes", "[base]") {
  // EVIDENCE: nist_sp811 B.8: 1 in = 0.0254 m, 1 ft = 0.3048 m
  CHECK(Length::from_inches(1).millimetres() == Approx(25.4).epsilon(1e-14));
  CHECK(Length::from_feet(1).metres() == 0.3048);
  CHECK(Length::from_feet(1).inches() == Approx(12).epsilon(1e-14));
}

TEST_CASE("Conversions come back to where they began", "[base]") {
  // Consistency check: round trips
  REQUIRE(rc::check("any value, both ways", [] {
    const double value = *rc::gen::inRange(-400'000, 1'400'000) / 1e4;
    const auto same = [value](double back) { return std::abs(back - value) < 1e-9; };
    const auto celsius = Temperature::from_celsius(value);
    RC_ASSERT(same(Temperature::from_fahrenheit(value).fahrenheit()));
    RC_ASSERT(same(Temperature::from_fahrenheit(celsius.fahrenheit()).celsius()));
    RC_ASSERT(same(FilmThickness::from_mils(value).mils()));
    RC_ASSERT(same(
        FilmThickness::from_mils(FilmThickness::from_micrometres(value).mils()).micrometres()));
    RC_ASSERT(same(Area::from_square_feet(value).square_feet()));
    RC_ASSERT(same(Volume::from_us_quarts(value).us_quarts()));
    RC_ASSERT(same(Volume::from_us_quarts(Volume::from_litres(value).us_quarts()).litres()));
    RC_ASSERT(same(Length::from_inches(value).inches()));
    RC_ASSERT(same(Length::from_feet(value).feet()));
    RC_ASSERT(same(RelativeHumidity::from_percent(value).percent()));
  }));
}

TEST_CASE("An amount in gallons, quarts or litres is the same amount", "[base]") {
  // EVIDENCE: nist_sp811 B.8: 1 gal (US) = 3.785411784 L = 4 qt
  REQUIRE(rc::check("as people type it", [] {
    const int gallons = *rc::gen::inRange(1, 200);
    const auto typed = [](double number, const char* unit) {
      return parse_volume(fmt::format("{:.9f}{}", number, unit)).value().litres();
    };
    RC_ASSERT(std::abs(typed(gallons, "gal") - 3.785411784 * gallons) < 1e-6);
    RC_ASSERT(std::abs(typed(gallons, "gal") - typed(4.0 * gallons, "qt")) < 1e-6);
    RC_ASSERT(std::abs(typed(gallons, "gal") - typed(3.785411784 * gallons, "L")) < 1e-6);
  }));
}

TEST_CASE("Hours add, scale and come from other spans", "[base]") {
  CHECK((Hours::from_hours(2) + Hours::from_minutes(30)).hours() == Approx(2.5));
  CHECK((Hours::from_hours(2) - Hours::from_minutes(30)).minutes() == Approx(90));
  CHECK((Hours::from_hours(2) * 1.5).hours() == Approx(3));
  CHECK(Hours::from_seconds(std::chrono::minutes(45)).hours() == Approx(0.75));
}
