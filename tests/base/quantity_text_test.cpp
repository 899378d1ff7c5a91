#include "base/quantity_text.h"

#include <catch2/catch.hpp>

using namespace coatwright;
using Catch::Contains;

namespace {

template <class T>
std::string refusal(const Result<T>& result, ErrorCode code) {
  REQUIRE_FALSE(result.has_value());
  CHECK(result.error().code == code);
  return result.error().text();
}

}  // namespace

TEST_CASE("Temperatures are read with their unit in either scale", "[base]") {
  // EVIDENCE: nist_sp811 B.8 (t/C = (t/F - 32)/1.8)
  CHECK(parse_temperature("68F")->celsius() == Approx(20.0));
  CHECK(parse_temperature("-40F")->celsius() == Approx(-40.0));
  CHECK(parse_temperature("20C")->kelvin() == Approx(293.15));
  for (const std::string_view text :
       {"20.5C", "20,5C", "20.5 C", " 20.5°C ", "20.5degC", "20.5c", "20,50 °C"}) {
    INFO(text);
    REQUIRE(parse_temperature(text).has_value());
    CHECK(parse_temperature(text)->celsius() == Approx(20.5));
  }
}

TEST_CASE("The ends of the temperature range are allowed in both scales", "[base]") {
  for (const std::string_view text : {"-40C", "60C", "-40F", "140F"}) {
    INFO(text);
    CHECK(parse_temperature(text).has_value());
  }
  for (const std::string_view text : {"-40.1C", "60.1C", "-40.1F", "140.1F", "1e300C"}) {
    INFO(text);
    CHECK_THAT(refusal(parse_temperature(text), ErrorCode::kOutOfRange),
               Contains("out of range: -40C to 60C (-40F to 140F) is allowed"));
  }
}

TEST_CASE("Amounts of liquid are read in litres and US measures", "[base]") {
  CHECK(parse_volume("0.2L")->litres() == Approx(0.2));
  CHECK(parse_volume("0,2 l")->litres() == Approx(0.2));
  CHECK(parse_volume("200ml")->litres() == Approx(0.2));
  // EVIDENCE: nist_sp811 B.8 (1 US gallon = 3.785412 L, 1 quart = 0.9463529 L, 1 fl oz = 29.57353
  // mL)
  CHECK(parse_volume("1gal")->litres() == Approx(3.785412).epsilon(1e-6));
  CHECK(parse_volume("1qt")->litres() == Approx(0.9463529).epsilon(1e-6));
  CHECK(parse_volume("1floz")->litres() == Approx(0.02957353).epsilon(1e-6));
  for (const std::string_view text : {"", "1", "L", "1m3", "2 L qt", "1,000L"}) {
    INFO(text);
    CHECK_THAT(refusal(parse_volume(text), ErrorCode::kUsage), Contains("0.2L, 200ml or 1qt"));
  }
  for (const std::string_view text : {"0L", "-1qt", "1000.1L"}) {
    INFO(text);
    CHECK_THAT(refusal(parse_volume(text), ErrorCode::kOutOfRange), Contains("at most 1000L"));
  }
}

TEST_CASE("A number without its unit is refused with an example", "[base]") {
  for (const std::string_view text : {"",
                                      " ",
                                      "20",
                                      "C",
                                      "20K",
                                      "20 C F",
                                      "twenty C",
                                      "2.0.5C",
                                      "1,2,3C",
                                      "nanC",
                                      "infC",
                                      "0x14C",
                                      "+-5C",
                                      "20\xC2\xB0",
                                      "\xFF\xFE"}) {
    INFO(text);
    CHECK(refusal(parse_temperature(text), ErrorCode::kUsage) ==
          "'" + std::string(text) +
              "' is not a temperature: write a number and its unit, as in 14C or 57F");
  }
  CHECK_THAT(refusal(parse_humidity("55"), ErrorCode::kUsage), Contains("as in 62%"));
  CHECK_THAT(refusal(parse_area("20"), ErrorCode::kUsage), Contains("as in 1.9m2 or 20sqft"));
  CHECK_THAT(refusal(parse_film_thickness("3"), ErrorCode::kUsage), Contains("as in 75um or 3mil"));
  CHECK_THAT(refusal(parse_film_thickness("3mm"), ErrorCode::kUsage), Contains("as in 75um"));
}

TEST_CASE("Humidities are percent from 0 to 100", "[base]") {
  CHECK(parse_humidity("55%")->fraction() == Approx(0.55));
  CHECK(parse_humidity("55,5 %RH")->percent() == Approx(55.5));
  CHECK(parse_humidity("0%")->fraction() == 0.0);
  CHECK(parse_humidity("100%")->fraction() == Approx(1.0));
  CHECK_THAT(refusal(parse_humidity("100.1%"), ErrorCode::kOutOfRange), Contains("0% to 100%"));
  CHECK_THAT(refusal(parse_humidity("-1%"), ErrorCode::kOutOfRange), Contains("'-1%'"));
}

TEST_CASE("Areas are read in square metres and square feet", "[base]") {
  // EVIDENCE: nist_sp811 B.8 (1 ft2 = 0.09290304 m2, exact)
  CHECK(parse_area("1sqft")->square_metres() == Approx(0.09290304).epsilon(1e-14));
  CHECK(parse_area("20ft2")->square_metres() == Approx(1.8580608).epsilon(1e-14));
  CHECK(parse_area("20ft²")->square_feet() == Approx(20.0));
  CHECK(parse_area("1,9m2")->square_metres() == Approx(1.9));
  CHECK(parse_area("1.9 m²")->square_metres() == Approx(1.9));
  CHECK(parse_area("1000m2").has_value());
  for (const std::string_view text : {"0m2", "-1m2", "1000.1m2", "10764sqft"}) {
    INFO(text);
    CHECK_THAT(refusal(parse_area(text), ErrorCode::kOutOfRange),
               Contains("above 0 and at most 1000m2 is allowed"));
  }
}

TEST_CASE("A comma that may part thousands is not guessed", "[base]") {
  // 1,000sqft is 1000 to an American maker and 1.000 to a European one.
  for (const std::string_view text : {"1,000sqft", "2,500sqft", "12,345m2"}) {
    INFO(text);
    CHECK_THAT(refusal(parse_area(text), ErrorCode::kUsage), Contains("is not an area"));
  }
  CHECK(parse_area("0,125m2")->square_metres() == Approx(0.125));
  CHECK(parse_area("1,25m2")->square_metres() == Approx(1.25));
}

TEST_CASE("Film thicknesses are read in micrometres and mils", "[base]") {
  // EVIDENCE: nist_sp811 B.8 (1 mil = 25.4 um, exact)
  CHECK(parse_film_thickness("1mil")->micrometres() == Approx(25.4).epsilon(1e-14));
  CHECK(parse_film_thickness("3mils")->micrometres() == Approx(76.2).epsilon(1e-14));
  CHECK(parse_film_thickness("75um")->micrometres() == Approx(75.0));
  CHECK(parse_film_thickness("75µm")->mils() == Approx(75.0 / 25.4));
  CHECK(parse_film_thickness("1um").has_value());
  CHECK(parse_film_thickness("2000um").has_value());
  for (const std::string_view text : {"0.9um", "2001um", "79mil", "-3mil"}) {
    INFO(text);
    CHECK_THAT(refusal(parse_film_thickness(text), ErrorCode::kOutOfRange),
               Contains("1um to 2000um is allowed"));
  }
}

TEST_CASE("Thicknesses are read in millimetres, centimetres and inches", "[base]") {
  // EVIDENCE: nist_sp811 B.8 (1 in = 25.4 mm, exact)
  CHECK(parse_thickness("1in")->millimetres() == Approx(25.4).epsilon(1e-14));
  CHECK(parse_thickness("1.5\"")->millimetres() == Approx(38.1).epsilon(1e-14));
  CHECK(parse_thickness("40mm")->metres() == Approx(0.04).epsilon(1e-14));
  CHECK(parse_thickness("4,5 cm")->millimetres() == Approx(45));
  CHECK(parse_thickness("1mm").has_value());
  CHECK(parse_thickness("300mm").has_value());
  for (const std::string_view text : {"0.9mm", "301mm", "12in", "-4cm"}) {
    INFO(text);
    CHECK_THAT(refusal(parse_thickness(text), ErrorCode::kOutOfRange),
               Contains("1mm to 300mm (0.04in to 11.8in) is allowed"));
  }
  CHECK_THAT(refusal(parse_thickness("40"), ErrorCode::kUsage),
             Contains("as in 40mm, 4cm or 1.5in"));
  CHECK_THAT(refusal(parse_thickness("40um"), ErrorCode::kUsage), Contains("as in 40mm"));
  CHECK(show_thickness(*parse_thickness("40mm"), UnitSystem::kMetric) == "40 mm");
  CHECK(show_thickness(*parse_thickness("1.5in"), UnitSystem::kUs) == "1.50 in");
}

TEST_CASE("An air is a temperature and a humidity, parted by a comma or a blank", "[base]") {
  for (const std::string_view text :
       {"20.5C,62%", "20,5C,62%", "20.5C 62%", "20.5C, 62 %", " 20.5 °C , 62 % ", "68.9F,62%RH"}) {
    INFO(text);
    const auto air = parse_air(text);
    REQUIRE(air.has_value());
    CHECK(air->temperature.celsius() == Approx(20.5));
    CHECK(air->humidity.percent() == Approx(62.0));
  }
  for (const std::string_view text : {"",
                                      "14C",
                                      "14,62%",
                                      "62%,14C",
                                      "14C,",
                                      "14C;62%",
                                      "14C,62",
                                      "14C62%",
                                      "14C,62%,1",
                                      "C,62%",
                                      ",,C"}) {
    INFO(text);
    refusal(parse_air(text), ErrorCode::kUsage);
  }
  refusal(parse_air("70C,62%"), ErrorCode::kOutOfRange);
  refusal(parse_air("14C,120%"), ErrorCode::kOutOfRange);
}

TEST_CASE("Quantities are shown in the user's units", "[base]") {
  // EVIDENCE: nist_sp811 B.8 (factors); the number of decimals is ours
  const auto bench = Temperature::from_celsius(14.0);
  CHECK(show_temperature(bench, UnitSystem::kMetric) == "14.0 C");
  CHECK(show_temperature(bench, UnitSystem::kUs) == "57.2 F");
  CHECK(show_whole_temperature(bench, UnitSystem::kUs) == "57 F");
  CHECK(show_difference(TemperatureDifference::from_kelvin(3.0), UnitSystem::kUs) == "5.4 F");
  CHECK(show_humidity(RelativeHumidity::from_fraction(0.62)) == "62 %");
  CHECK(show_area(Area::from_square_metres(1.8580608), UnitSystem::kUs) == "20.0 sq ft");
  CHECK(show_area(Area::from_square_metres(1.9), UnitSystem::kMetric) == "1.90 m2");
  CHECK(show_volume(Volume::from_litres(0.946352946), UnitSystem::kUs) == "1.00 qt");
  CHECK(show_volume(Volume::from_us_quarts(1.0), UnitSystem::kMetric) == "0.95 L");
}
