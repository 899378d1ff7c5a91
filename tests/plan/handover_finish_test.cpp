#include "plan/handover_finish.h"

#include <cmath>

#include <catch2/catch.hpp>

#include "air/changed_air.h"
#include "plan/own_drying.h"
#include "store/log_samples.h"

/// The days of a care card against the drying clock once more, written for the tests from
/// docs/formulas.md, in an air that is written down here as well.
namespace coatwright {
namespace {

using samples::at;

const Time kCoated = at("2027-03-05T12:00:00Z");
const Time kHandedOver = at("2027-03-08T09:00:00Z");

/// A shop and a house, each with the same air all day.
struct Places {
  double shop_c;
  double house_c;
};

Zone utc() {
  return Zone::find("UTC").value();
}

/// EVIDENCE: definition: the shop's air until the piece is handed over, in an hour and a half on a
/// straight line to the house's, and then that.
double kelvin_at(double minutes, const Places& places) {
  const double moved =
      minutes - static_cast<double>((kHandedOver - kCoated) / std::chrono::minutes(1));
  const double share = std::min(1.0, std::max(0.0, moved / 90.0));
  return 273.15 + places.shop_c + share * (places.house_c - places.shop_c);
}

/// Walks over minutes until the hours of each phase in turn are earned: its high end, which is the
/// 90th percentile by definition of the recipes. @return the moment.
Time own_moment(const std::vector<Phase>& phases, double gate_c, const Places& places) {
  double minutes = 0.0;
  for (const Phase& phase : phases) {
    double left = phase.duration.high().hours();
    while (left > 0.0) {
      const double kelvin = kelvin_at(minutes + 0.5, places);
      left -= kelvin < 273.15 + gate_c ? 0.0 : own::rate(phase.law, kelvin, 0.5) / 60.0;
      minutes += 1.0;
      REQUIRE(minutes < 60.0 * 24.0 * 200.0);
    }
  }
  return kCoated + std::chrono::seconds(std::llround(minutes * 60.0));
}

AirRecord own_air(const Places& places) {
  const auto half = RelativeHumidity::from_percent(50);
  const AirRecord shop(
      {}, UsualDay::constant(Temperature::from_celsius(places.shop_c), half), utc());
  return shop_then_house(shop,
                         kCoated - std::chrono::hours(6),
                         kHandedOver,
                         UsualDay::constant(Temperature::from_celsius(places.house_c), half));
}

/// The finish of a part with one coat of a product on it.
CardFinish finish_with(const Product& product, const Places& places, const RecipeBook& book) {
  LaidCoat coat;
  coat.product = &product;
  coat.step = 1;
  coat.begun = coat.ended = kCoated;
  Progress progress;
  progress.coats_on = {{coat}};
  const AirRecord air = own_air(places);
  DryingClocks clocks(air, kCoated - std::chrono::hours(6));
  return finish_of({"top", progress, 1}, book, clocks);
}

void check_moment(const std::string& name, const Places& places) {
  INFO(name << " in a shop at " << places.shop_c << " C, a house at " << places.house_c << " C");
  const RecipeBook book;
  const Product& product = **book.product(name);
  const CardFinish finish = finish_with(product, places, book);
  REQUIRE(product.limits.temperature_min);
  const double gate = product.limits.temperature_min->value.celsius();
  for (const auto& [stage, told] :
       {std::pair(Stage::kLightUse, finish.light_use), {Stage::kFullCure, finish.full_use}}) {
    INFO(name_of(stage));
    REQUIRE(told.at);
    const Time own = own_moment(product.stage(stage)->timing.phases, gate, places);
    CHECK(std::abs((*told.at - own).count()) <= 180);
  }
}

TEST_CASE("A card's moments are those of the drying clock in shop and house", "[cli]") {
  // EVIDENCE: freiesleben1977 and the Antoine sets, by tests/plan/own_drying.h.
  check_moment("hardwax-oil", {18.0, 21.0});
  check_moment("boiled-linseed-oil", {20.0, 18.0});
  check_moment("nitrocellulose-lacquer-spray", {17.0, 20.0});
  check_moment("two-part-polyurethane", {22.0, 19.0});
}

TEST_CASE("A cold shop earns nothing until the piece is in the house", "[cli]") {
  // Its minimum is 16 C: below it nothing that opens is credited.
  const RecipeBook book;
  const Product& oil = **book.product("hardwax-oil");
  REQUIRE(oil.limits.temperature_min->value.celsius() == Approx(16.0));
  check_moment("hardwax-oil", {15.0, 20.0});
  const CardFinish cold = finish_with(oil, {15.0, 20.0}, book);
  const CardFinish warm = finish_with(oil, {20.0, 20.0}, book);
  REQUIRE(cold.full_use.at);
  REQUIRE(warm.full_use.at);
  const auto later = *cold.full_use.at - *warm.full_use.at;
  CHECK(later > kHandedOver - kCoated);
  CHECK(later < kHandedOver - kCoated + std::chrono::hours(2));
}

TEST_CASE("What is never reached has no day", "[cli]") {
  const RecipeBook book;
  const CardFinish finish = finish_with(**book.product("hardwax-oil"), {15.0, 12.0}, book);
  CHECK_FALSE(finish.light_use.at);
  CHECK_FALSE(finish.full_use.at);
  CHECK(finish.layers == std::vector<std::string>{"hardwax-oil"});
}

TEST_CASE("Parts that are finished alike stand together with the later day", "[cli]") {
  // Consistency check: what stands together is ours to say.
  CardFinish first;
  first.parts = {"top"};
  first.layers = {"hardwax-oil"};
  first.coats = {{"hardwax-oil", "Hardwax oil", 1, kCoated, kCoated, false}};
  first.light_use.at = kCoated;
  CardFinish second = first;
  second.parts = {"shelf"};
  second.coats.front().last = kHandedOver;
  second.light_use.at = kHandedOver;
  CardFinish other = first;
  other.parts = {"base"};
  other.layers = {"oil-varnish"};
  std::vector<CardFinish> all;
  add_finish(first, all);
  add_finish(second, all);
  add_finish(other, all);
  REQUIRE(all.size() == 2);
  CHECK(all.front().parts == std::vector<std::string>{"top", "shelf"});
  CHECK(all.front().coats.front().first == kCoated);
  CHECK(all.front().coats.front().last == kHandedOver);
  CHECK(all.front().light_use.at == kHandedOver);
  CHECK_FALSE(all.front().full_use.at);
}

}  // namespace
}  // namespace coatwright
