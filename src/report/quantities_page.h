#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/zone.h"
#include "quantity/cans.h"
#include "quantity/dry_film.h"
#include "quantity/quantity.h"

/// What to buy and mix, as text and JSON.
namespace coatwright {

/// A piece as the page names it.
struct PieceOfJob {
  std::string name;
  std::string schedule;  ///< Recipe name.
  Area face = Area::from_square_metres(0);
  int faces = 1;
  DryFilm film;
};

/// What the page is written from.
struct QuantitiesView {
  const std::vector<PieceOfJob>& pieces;
  const std::vector<ProductAmount>& products;
  const std::vector<Purchase>& purchases;
  const Waste& waste;
  BatchAir air;
  std::string air_from;  ///< "as given", "the warmest of the shop's next 24 h"
  Time now;
  const Zone& zone;
  UnitSystem units;
};

/// The shopping list, each product with how it is reckoned and mixed, and the dry films.
[[nodiscard]] std::string show_quantities(const QuantitiesView& view);
/// Each formula with its figures, their sources and how they are known.
[[nodiscard]] std::string explain_quantities(const QuantitiesView& view);
[[nodiscard]] std::string quantities_as_json(const QuantitiesView& view);

/// "0.35 L", "35 ml"; "1.20 gal", "1.48 qt", "12 fl oz".
[[nodiscard]] std::string amount_text(Volume amount, UnitSystem units);
/// "2 x 1 L, 1 x 0.25 L".
[[nodiscard]] std::string cans_text(const CanPurchase& purchase);
/// "62 to 90 um", "2.4 to 3.5 mil".
[[nodiscard]] std::string film_range_text(const DryRange& dry, UnitSystem units);

}  // namespace coatwright
