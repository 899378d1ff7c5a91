#include "cli/product_in_air.h"

#include <catch2/catch.hpp>

namespace coatwright {
namespace {

TemperatureAndHumidity air(double celsius, double percent) {
  return {Temperature::from_celsius(celsius), RelativeHumidity::from_percent(percent)};
}

StageTiming timing(Mechanism mechanism, double low, double high) {
  return {{{rate_law_of(mechanism),
            DurationRange(Hours::from_hours(low), Hours::from_hours(high)),
            0}}};
}

TEST_CASE("At the reference a stage opens as the recipe says", "[cli]") {
  const auto range = opening_in_air(timing(Mechanism::kOxidation, 4, 24), {}, air(23, 50));
  REQUIRE(range);
  CHECK(range->low().hours() == Approx(4.0));
  CHECK(range->high().hours() == Approx(24.0));
}

TEST_CASE("An oil finish takes twice as long ten degrees colder", "[cli]") {
  // EVIDENCE: common practice, Q10 = 2 for drying oils (from memory)
  const auto range = opening_in_air(timing(Mechanism::kOxidation, 4, 24), {}, air(13, 50));
  REQUIRE(range);
  CHECK(range->low().hours() == Approx(8.0).epsilon(0.06));
}

TEST_CASE("Water leaves a film more slowly in proportion to the humidity deficit", "[cli]") {
  // EVIDENCE: by definition: 75 % RH leaves half the deficit of 50 % RH at one temperature
  const auto range = opening_in_air(timing(Mechanism::kWaterLoss, 1, 2), {}, air(23, 75));
  REQUIRE(range);
  CHECK(range->high().hours() == Approx(4.0));
}

TEST_CASE("Below its minimum temperature a product does not open", "[cli]") {
  Limits limits;
  limits.temperature_min = {Temperature::from_celsius(16.0), "judgement", ""};
  const auto oxidation = timing(Mechanism::kOxidation, 4, 24);
  CHECK_FALSE(opening_in_air(oxidation, limits, air(15.9, 50)));
  CHECK(opening_in_air(oxidation, limits, air(16.0, 50)));
}

TEST_CASE("Water does not leave into saturated air", "[cli]") {
  CHECK_FALSE(opening_in_air(timing(Mechanism::kWaterLoss, 1, 2), {}, air(20, 100)));
}

TEST_CASE("A window closes sooner in warm air and never later in cold air", "[cli]") {
  const auto closing = timing(Mechanism::kOxidation, 12, 24);
  CHECK(closing_in_air(closing, air(10, 50)).high().hours() == Approx(24.0));
  // EVIDENCE: common practice, Q10 = 2 for drying oils (from memory)
  CHECK(closing_in_air(closing, air(33, 50)).high().hours() == Approx(12.0).epsilon(0.06));

  const WipeOff wipe{Hours::from_minutes(5),
                     Hours::from_minutes(15),
                     rate_law_of(Mechanism::kOxidation),
                     "judgement"};
  CHECK(closing_in_air(wipe, air(10, 50)).minutes() == Approx(15.0));
  CHECK(closing_in_air(wipe, air(33, 50)).minutes() < 10.0);
}

}  // namespace
}  // namespace coatwright
