#include "quantity/quantity.h"

#include <catch2/catch.hpp>

using namespace coatwright;

TEST_CASE("A film of one mil spreads as the paint trade's constant says", "[quantity]") {
  // EVIDENCE: paint_arithmetic (trade arithmetic, read): 1604 sq ft per US gallon and mil of film
  const double m2_per_l = spread_from_wet_film_m2_per_l(FilmThickness::from_mils(1.0));
  const double square_feet =
      Area::from_square_metres(m2_per_l).square_feet() * Volume::from_us_quarts(4).litres();
  CHECK(square_feet == Approx(1604.17).margin(0.01));
}

TEST_CASE("Five hundred square feet a gallon is a film of 3.2 mils", "[quantity]") {
  // EVIDENCE: paint_arithmetic (read): 500 ft2/gal = 12.27 m2/L = 3.21 wet mil, brushed varnish
  const double m2_per_l = Area::from_square_feet(500).square_metres() / 3.785411784;
  CHECK(m2_per_l == Approx(12.27).margin(0.005));
  CHECK(spread_from_wet_film_m2_per_l(FilmThickness::from_mils(3.21)) ==
        Approx(12.27).margin(0.02));
}

TEST_CASE("The amount is area times coats over the low spreading rate", "[quantity]") {
  Product product;
  product.film.spread_low_m2_per_l = 8.0;
  product.film.spread_high_m2_per_l = 12.0;
  const Quantity quantity = quantity_from_area(product, Area::from_square_metres(2.0), 3);
  CHECK(quantity.amount.litres() == Approx(0.75));
  CHECK(quantity.spread_m2_per_l == 8.0);
  CHECK(quantity_from_area(product, Area::from_square_metres(0.0), 3).amount.litres() == 0.0);
}
