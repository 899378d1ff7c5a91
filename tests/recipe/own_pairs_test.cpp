#include "recipe/own_pairs.h"

#include <catch2/catch.hpp>

#include "recipe/recipe_book.h"

using namespace coatwright;

namespace {

DurationRange range(double low, double high) {
  return {Hours::from_hours(low), Hours::from_hours(high)};
}

/// A product of the class with a label's recoat hours and, where it has one, closing.
Product own(const std::string& of_class, const char* recoat, const char* recoat_by = nullptr) {
  const RecipeBook book;
  LabelFigures label;
  label.name = "own";
  label.far_off = true;
  label.stages.emplace(Stage::kRecoat,
                       Typed<HoursRange>{parse_hours_range(recoat).value(), recoat});
  if (recoat_by != nullptr) {
    label.recoat_by = Typed<HoursRange>{parse_hours_range(recoat_by).value(), recoat_by};
  }
  const auto text =
      product_text_from_label(**book.product(of_class), *book.product_text(of_class), label);
  REQUIRE(text);
  return RecipeBook::read_product(*text, "own.toml").value();
}

DurationRange opening(const Product& under, const std::string& over) {
  const RecipeBook book;
  const auto rule = book.pair(under, **book.product(over));
  if (!rule) {
    FAIL(rule.error().text());
  }
  return rule->intervals.front().opens.whole();
}

}  // namespace

TEST_CASE("A stain whose label says 6 h opens sooner than its class, and 48 h later", "[recipe]") {
  const RecipeBook book;
  const Product& stain = **book.product("oil-wiping-stain");
  // The class: recoat 12 to 24 h, and the same for the sealer over it.
  REQUIRE(stain.stage(Stage::kRecoat)->timing.whole() == range(12, 24));
  REQUIRE(opening(stain, "nitrocellulose-sanding-sealer") == range(12, 24));
  CHECK(opening(own("oil-wiping-stain", "6h"), "nitrocellulose-sanding-sealer").high().hours() ==
        Approx(6.0));
  CHECK(opening(own("oil-wiping-stain", "6h"), "nitrocellulose-sanding-sealer").low().hours() ==
        Approx(6.0));
  CHECK(opening(own("oil-wiping-stain", "48h"), "nitrocellulose-sanding-sealer").low().hours() ==
        Approx(48.0));
  // Waterborne over it waits 72 to 168 h in the table: a quarter, and twice as long.
  CHECK(opening(own("oil-wiping-stain", "6h"), "waterborne-clear").high().hours() == Approx(42.0));
  CHECK(opening(own("oil-wiping-stain", "48h"), "waterborne-clear").high().hours() ==
        Approx(336.0));
}

TEST_CASE("A class and a product that keeps its recoat have the table's hours", "[recipe]") {
  CHECK(opening(own("oil-wiping-stain", "12h-24h"), "waterborne-clear") == range(72, 168));
}

TEST_CASE("Where a fitted opening leaves nothing for the last phase, recoat is used", "[recipe]") {
  const Product under = own("waterborne-clear", "2h-8h");
  IntervalHours interval;
  interval.opens = range(1.0, 2.0);
  const RecoatChange change{range(2.0, 8.0), range(2.0, 2.8)};
  // Scaled to 0.35 to 0.7 h, of which water loss takes 0.25 to 0.75 h.
  CHECK_FALSE(fitted_intervals({interval}, under, change).front().opens);
}

TEST_CASE("A pair's window closes no later than the product's label", "[recipe]") {
  const Product under = own("oil-modified-varnish", "6h-8h", "10h");
  IntervalHours window;
  window.opens = range(4.0, 24.0);
  window.closes = range(24.0, 48.0);
  const RecoatChange change{range(4.0, 24.0), range(6.0, 8.0)};
  const auto fitted = fitted_intervals({window}, under, change);
  REQUIRE(fitted.size() == 1);
  CHECK(fitted.front().closes == range(10.0, 10.0));
}

TEST_CASE("A stretch in which nothing may go on becomes no shorter", "[recipe]") {
  const Product under = own("oil-modified-varnish", "2h-4h");
  IntervalHours ban;
  ban.condition = RecoatCondition::kNever;
  ban.opens = range(6.0, 6.0);
  ban.closes = range(36.0, 72.0);
  const RecoatChange sooner{range(4.0, 24.0), range(2.0, 12.0)};
  CHECK(fitted_intervals({ban}, under, sooner).front().opens == range(3.0, 3.0));
  CHECK(fitted_intervals({ban}, under, sooner).front().closes == range(36.0, 72.0));
  const RecoatChange later{range(4.0, 24.0), range(8.0, 48.0)};
  CHECK(fitted_intervals({ban}, under, later).front().opens == range(6.0, 6.0));
  CHECK(fitted_intervals({ban}, under, later).front().closes == range(72.0, 144.0));
}

TEST_CASE("A window that would close before it opens is left out beside another", "[recipe]") {
  const Product under = own("oil-modified-varnish", "48h");
  IntervalHours window;
  window.opens = range(4.0, 24.0);
  window.closes = range(12.0, 24.0);
  IntervalHours abrade;
  abrade.condition = RecoatCondition::kAbrade;
  abrade.opens = range(6.0, 24.0);
  const RecoatChange change{range(4.0, 24.0), range(48.0, 48.0)};
  const auto fitted = fitted_intervals({window, abrade}, under, change);
  REQUIRE(fitted.size() == 1);
  CHECK(fitted.front().condition == RecoatCondition::kAbrade);
  CHECK(fitted_intervals({window}, under, change).size() == 1);
}
