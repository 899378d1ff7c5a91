#include "drying/coat_progress.h"

#include <cmath>
#include <random>

#include <catch2/catch.hpp>

using namespace coatwright;
using std::chrono::hours;
using std::chrono::minutes;

namespace {

const Time kStart = Time(hours(24 * 20000));

AirRecord constant_air(double temperature, double humidity) {
  return {{},
          UsualDay::constant(Temperature::from_celsius(temperature),
                             RelativeHumidity::from_percent(humidity)),
          *Zone::find("UTC")};
}

StageTiming timing(Mechanism mechanism, double low, double high) {
  StageTiming one;
  one.phases.push_back({rate_law_of(mechanism, antoine_of("n-butyl acetate")),
                        {Hours::from_hours(low), Hours::from_hours(high)},
                        0.0});
  return one;
}

StageTiming waterborne() {
  StageTiming two = timing(Mechanism::kWaterLoss, 0.5, 1.0);
  two.phases.push_back(timing(Mechanism::kCoalescence, 1.5, 5.0).phases.front());
  return two;
}

}  // namespace

TEST_CASE("A waterborne coat loses its water first and then closes", "[drying]") {
  const AirRecord air = constant_air(15, 80);
  DryingClocks clocks(air, kStart);
  CoatProgress coat(clocks, kStart, std::nullopt);
  const double deviate = normal_deviate(0.9);
  const double water = rate_law_of(Mechanism::kWaterLoss)
                           .rate(Temperature::from_celsius(15), RelativeHumidity::from_percent(80));
  const double close = rate_law_of(Mechanism::kCoalescence)
                           .rate(Temperature::from_celsius(15), RelativeHumidity::from_percent(80));
  const auto opens = coat.opens(waterborne(), deviate, kStart + hours(200));
  REQUIRE(opens);
  const double by_hand = 1.0 / water + 5.0 / close;
  CHECK(Hours::from_seconds(*opens - kStart).hours() == Approx(by_hand).margin(0.01));
  CHECK(coat.earned(waterborne(), deviate, *opens).hours() == Approx(6.0).margin(0.001));
  CHECK(coat.opening_deviate(waterborne(), *opens) == Approx(deviate).margin(0.001));
}

TEST_CASE("A window closes by its clock in warm air and by the label in cold air", "[drying]") {
  const StageTiming closing = timing(Mechanism::kOxidation, 12, 24);
  const double deviate = -normal_deviate(0.9);
  const AirRecord warm = constant_air(30, 50);
  DryingClocks warm_clocks(warm, kStart);
  CoatProgress in_warm(warm_clocks, kStart, std::nullopt);
  const double warm_hours =
      Hours::from_seconds(in_warm.closes(closing, deviate, kStart + hours(100)) - kStart).hours();
  CHECK(warm_hours == Approx(12.0 / 1.598).margin(0.02));
  // Cold air, and a minimum temperature that stops every opening: the window closes all the same.
  const AirRecord cold = constant_air(5, 50);
  DryingClocks cold_clocks(cold, kStart);
  CoatProgress in_cold(cold_clocks, kStart, Temperature::from_celsius(13));
  CHECK(in_cold.closes(closing, deviate, kStart + hours(100)) == kStart + hours(12));
  CHECK_FALSE(in_cold.opens(closing, deviate, kStart + hours(24 * 30)));
}

TEST_CASE("The chance of being inside a window agrees with drawing shops and coats", "[drying]") {
  // An independent check: ten thousand shops drawn from the same model by a generator.
  const AirRecord air = constant_air(23, 50);
  DryingClocks clocks(air, kStart);
  CoatProgress coat(clocks, kStart, std::nullopt);
  const StageTiming opening = timing(Mechanism::kOxidation, 4, 24);
  const StageTiming closing = timing(Mechanism::kOxidation, 12, 24);
  std::mt19937_64 random(42);
  std::normal_distribution<double> normal;
  for (const double at : {8.0, 12.0, 16.0, 20.0}) {
    int inside = 0;
    constexpr int kShops = 100000;
    for (int i = 0; i < kShops; ++i) {
      const double shop = normal(random);
      const auto draw = [&](const DurationRange& range) {
        return range.at_deviate(std::sqrt(0.5) * shop + std::sqrt(0.5) * normal(random)).hours();
      };
      const double opens = draw(opening.whole());
      const double closes = draw(closing.whole());
      inside += opens <= at && at < closes ? 1 : 0;
    }
    const double drawn = static_cast<double>(inside) / kShops;
    const double chance =
        coat.chance_inside(opening, &closing, kStart + minutes(std::lround(at * 60.0)));
    CHECK(chance == Approx(drawn).margin(0.006));  // four standard errors
  }
}

TEST_CASE("Without a closing the chance is that of the opening alone", "[drying]") {
  const AirRecord air = constant_air(23, 50);
  DryingClocks clocks(air, kStart);
  CoatProgress coat(clocks, kStart, std::nullopt);
  const StageTiming opening = timing(Mechanism::kOxidation, 12, 24);
  CHECK(coat.chance_inside(opening, nullptr, kStart + hours(24)) == Approx(0.9).margin(1e-6));
  CHECK(coat.chance_inside(opening, nullptr, kStart + hours(12)) == Approx(0.1).margin(1e-6));
  CHECK(joint_chance({}) == Approx(1.0));
}

TEST_CASE("A film twice as thick takes as long as its exponent says", "[drying]") {
  // EVIDENCE: standard mass transfer (from memory): reaction 0, evaporation 1, diffusion 2
  StageTiming stage = timing(Mechanism::kEvaporation, 1, 2);
  for (const auto& [exponent, factor] : {std::pair(0.0, 1.0), {1.0, 2.0}, {2.0, 4.0}}) {
    stage.phases.front().film_exponent = exponent;
    CHECK(stage.for_film(2.0).whole().low().hours() == Approx(factor));
    CHECK(stage.for_film(2.0).whole().high().hours() == Approx(2.0 * factor));
  }
}
