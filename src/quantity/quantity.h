#pragma once

#include <string>

#include "base/units.h"
#include "recipe/product.h"

namespace coatwright {

/// How much of a product is used, and how that was reckoned.
struct Quantity {
  Volume amount = Volume::from_litres(0);
  double spread_m2_per_l = 0;  ///< The low end of the product's spreading rate.
};

/// Amount for a number of coats on an area, at the low end of the spreading rate so that it
/// suffices.
/// @param area of one coat, at least 0. @param coats at least 0.
/// Source: V = n A / s, definition of the spreading rate; s from the product's recipe.
[[nodiscard]] Quantity quantity_from_area(const Product& product, Area area, int coats);

/// Spreading rate from film: @param wet film thickness. @return m2 per litre without loss.
/// Source: 1 L over 1000 m2 is 1 um. Check: [paint_arithmetic] 1604 ft2 per gallon and mil.
[[nodiscard]] double spread_from_wet_film_m2_per_l(FilmThickness wet);

}  // namespace coatwright
