#include "base/range_text.h"

#include <catch2/catch.hpp>

namespace coatwright {
namespace {

TEST_CASE("Hours of a label are read as one figure or as a range", "[base]") {
  // EVIDENCE: definition of minute, hour and day
  const auto hours = [](const char* text) {
    const auto range = parse_hours_range(text);
    REQUIRE(range);
    return std::pair(range->low.hours(), range->high.hours());
  };
  CHECK(hours("2h") == std::pair(2.0, 2.0));
  CHECK(hours("2h-4h") == std::pair(2.0, 4.0));
  CHECK(hours("2-4h") == std::pair(2.0, 4.0));
  CHECK(hours("30min-1h") == std::pair(0.5, 1.0));
  CHECK(hours(" 7 d ") == std::pair(168.0, 168.0));
  CHECK(hours("1,5h") == std::pair(1.5, 1.5));
}

TEST_CASE("Hours that are none are refused with an example", "[base]") {
  for (const char* text : {"", "2", "h", "2x", "2h-", "-", "h-2h", "2h-4h-6h", "nanh", "2 - 4"}) {
    CAPTURE(text);
    const auto range = parse_hours_range(text);
    REQUIRE_FALSE(range);
    CHECK(range.error().code == ErrorCode::kUsage);
    CHECK_THAT(range.error().text(), Catch::Contains("2h-4h"));
  }
  CHECK(parse_hours_range("4h-2h").error().code == ErrorCode::kUsage);
  CHECK(parse_hours_range("0h").error().code == ErrorCode::kOutOfRange);
  CHECK(parse_hours_range("-2h").error().code == ErrorCode::kOutOfRange);
  CHECK(parse_hours_range("5001h").error().code == ErrorCode::kOutOfRange);
}

TEST_CASE("A range of temperatures is read, below zero too", "[base]") {
  // EVIDENCE: definition of the Fahrenheit scale
  const auto range = parse_temperature_range("50F-95F");
  REQUIRE(range);
  CHECK(range->low.celsius() == Approx(10.0));
  CHECK(range->high.celsius() == Approx(35.0));
  CHECK(parse_temperature_range("50-95F")->low.celsius() == Approx(10.0));
  CHECK(parse_temperature_range("-5C-30C")->low.celsius() == Approx(-5.0));
  CHECK(parse_temperature_range("90F-55F").error().code == ErrorCode::kUsage);
  CHECK(parse_temperature_range("55-90").error().code == ErrorCode::kUsage);
}

TEST_CASE("Coverage is read in metric and in US units", "[base]") {
  // EVIDENCE: nist_sp811: a US gallon is 3.785412 L and a square foot 0.09290304 m2
  CHECK(parse_spread_range("10-12m2/L")->high == 12.0);
  CHECK(parse_spread_range("400sqft/gal")->low == Approx(400.0 * 0.09290304 / 3.785412));
  CHECK(parse_spread_range("100sqft/qt")->low == Approx(400.0 * 0.09290304 / 3.785412));
  CHECK(parse_spread_range("400").error().code == ErrorCode::kUsage);
  CHECK(parse_spread_range("60m2/L").error().code == ErrorCode::kOutOfRange);
  CHECK(parse_percent_range("28-32%")->high == 32.0);
  CHECK(parse_percent_range("101%").error().code == ErrorCode::kOutOfRange);
}

}  // namespace
}  // namespace coatwright
