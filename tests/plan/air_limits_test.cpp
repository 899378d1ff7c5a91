#include "plan/air_limits.h"

#include <catch2/catch.hpp>

#include "plan/plan_requests.h"

using namespace coatwright;
using namespace asked;
using std::chrono::hours;
using std::chrono::minutes;

namespace {

const Time kMoment = at("2027-06-07T12:00:00Z");

/// A product with round limits of its own.
Product product() {
  Product one;
  one.name = one.title = "Some clear";
  one.limits.temperature_min = {Temperature::from_celsius(16), "judgement", ""};
  one.limits.temperature_max = {Temperature::from_celsius(30), "judgement", ""};
  one.limits.humidity_min = {RelativeHumidity::from_percent(30), "judgement", ""};
  one.limits.humidity_max = {RelativeHumidity::from_percent(65), "judgement", ""};
  one.limits.dew_point_spread_min = {TemperatureDifference::from_kelvin(3), "judgement", ""};
  one.limits.blush_spread = {TemperatureDifference::from_kelvin(11), "judgement", ""};
  return one;
}

std::string code_in(double celsius, double percent, const Product& product) {
  const AirRecord air = constant_air(celsius, percent, zone("UTC"));
  const auto breach = AirLimits(air, product).breach_at(kMoment);
  return breach ? breach->code : "";
}

}  // namespace

TEST_CASE("Air on a limit keeps it, air beyond breaks it", "[plan]") {
  const Product clear = product();
  CHECK(code_in(16, 50, clear).empty());
  CHECK(code_in(15.9, 50, clear) == "temperature-min");
  CHECK(code_in(20, 65, clear).empty());
  CHECK(code_in(20, 65.2, clear) == "humidity-max");
}

TEST_CASE("What is only unfavourable does not bar a coat", "[plan]") {
  const Product clear = product();
  CHECK(code_in(34, 20, clear).empty());
  const AirRecord hot = constant_air(34, 20, zone("UTC"));
  CHECK(AirLimits(hot, clear).cautions(kMoment, kMoment + hours(1)).size() == 2);
  // EVIDENCE: uk_weather_station_table, 20 C at 60 % has its dew point at 12 C: 8 K apart
  const AirRecord damp = constant_air(20, 60, zone("UTC"));
  const auto blush = AirLimits(damp, clear).cautions(kMoment, kMoment);
  REQUIRE(blush.size() == 1);
  CHECK(blush.front().code == "blush");
}

TEST_CASE("Wood that warms makes bubbles, wood that cools does not", "[plan]") {
  // EVIDENCE: common practice, no source: coat on a falling temperature
  const auto ramp = [](double kelvins_an_hour) {
    std::vector<AirEntry> entries;
    for (int i = -6; i <= 3; ++i) {
      entries.push_back(forecast(kMoment + hours(i), 20.0 + kelvins_an_hour * i, 40));
    }
    return AirRecord(entries, *UsualDay::parse("0:00 20C 40%"), zone("UTC"));
  };
  const auto has_outgassing = [&](double kelvins_an_hour, ProductKind kind) {
    Product clear = product();
    clear.kind = kind;
    const AirRecord air = ramp(kelvins_an_hour);
    const auto cautions = AirLimits(air, clear).cautions(kMoment, kMoment + hours(1));
    return std::any_of(cautions.begin(), cautions.end(), [](const LimitBreach& one) {
      return one.code == "outgassing";
    });
  };
  CHECK(has_outgassing(1.5, ProductKind::kClearFilm));
  CHECK_FALSE(has_outgassing(0.5, ProductKind::kClearFilm));
  CHECK_FALSE(has_outgassing(-1.5, ProductKind::kClearFilm));
  CHECK_FALSE(has_outgassing(1.5, ProductKind::kOil));
}

TEST_CASE("A surface within 3 K of the dew point is too near", "[plan]") {
  Product clear = product();
  clear.limits.humidity_max.reset();
  // EVIDENCE: coating_conditions_guides, 3 C; at 20 C they meet it below about 83 % RH
  CHECK(code_in(20, 80, clear).empty());
  CHECK(code_in(20, 86, clear) == "dew-point-spread");
}

TEST_CASE("A cold board in air that warms and dampens is too near the dew point", "[plan]") {
  Product clear = product();
  clear.limits.humidity_max.reset();
  clear.limits.temperature_min.reset();
  // From 8 C to 20 C within ten minutes: the air keeps 7 K to its dew point, the board does not.
  const AirRecord air({forecast(kMoment - hours(2), 8, 60),
                       forecast(kMoment - minutes(10), 8, 60),
                       forecast(kMoment, 20, 65),
                       forecast(kMoment + hours(3), 20, 65)},
                      *UsualDay::parse("0:00 20C 65%"),
                      zone("UTC"));
  const AirLimits limits(air, clear);
  const auto breach = limits.breach_at(kMoment);
  REQUIRE(breach);
  CHECK(breach->code == "dew-point-spread");
  // With a lag of 20 minutes the board comes to 17 C, 3.7 K above it, within 40 minutes.
  const auto kept = limits.next_kept(kMoment, kMoment + hours(3));
  REQUIRE(kept);
  CHECK(*kept > kMoment + minutes(10));
  CHECK(*kept <= kMoment + minutes(40));
}

TEST_CASE("Below its film-formation temperature a film is spoiled", "[plan]") {
  Product clear = product();
  clear.limits.temperature_min.reset();
  clear.limits.film_formation_min = {Temperature::from_celsius(10), "judgement", ""};
  CHECK(code_in(9.5, 50, clear) == "film-formation");
  CHECK(code_in(10, 50, clear).empty());
}

TEST_CASE("The first breach and the next kept moment frame a damp hour", "[plan]") {
  const Product clear = product();
  const AirRecord air({forecast(kMoment, 20, 50),
                       forecast(kMoment + hours(1), 20, 88),
                       forecast(kMoment + hours(2), 20, 88),
                       forecast(kMoment + hours(3), 20, 50),
                       forecast(kMoment + hours(5), 20, 50)},
                      *UsualDay::parse("0:00 20C 50%"),
                      zone("UTC"));
  const AirLimits limits(air, clear);
  // 65 % comes 15/38 of an hour after 50 % and 23/38 of an hour after 88 %: 23.7 and 36.3 minutes.
  const auto breach = limits.first_breach(kMoment, kMoment + hours(5));
  REQUIRE(breach);
  CHECK(breach->at == kMoment + minutes(25));
  CHECK(limits.next_kept(breach->at, kMoment + hours(5)) == kMoment + minutes(160));
  CHECK_FALSE(limits.next_kept(breach->at, kMoment + hours(2)));
  CHECK_FALSE(limits.first_breach(kMoment, kMoment + minutes(20)));
}
