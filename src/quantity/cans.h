#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/time.h"
#include "base/units.h"
#include "quantity/quantity.h"
#include "recipe/application.h"

namespace coatwright {

/// Cans that together hold enough.
struct CanPurchase {
  std::vector<std::pair<CanSize, int>> cans;  ///< Largest first, each count at least 1.
  Volume total = Volume::from_litres(0);
  Volume left_over = Volume::from_litres(0);
};

/// The cans with the least left over, and of those the fewest. The price is not known here: a large
/// can is often the cheaper buy.
/// @param needed at least 0. @param sizes of one system of units, at least one.
/// Source: exact, by dynamic programming over the sizes' common measure.
[[nodiscard]] CanPurchase cans_for(Volume needed, std::vector<CanSize> sizes);

/// One line of a shopping list.
struct Purchase {
  const ProductAmount* of = nullptr;
  std::string part;  ///< Of a mix, or the thinner's name; empty: the product as it is.
  Volume needed = Volume::from_litres(0);
  CanPurchase cans;
};

/// What to buy for each amount: the product, or the parts of its mix, and its thinner.
/// @param amounts must outlive the result.
[[nodiscard]] std::vector<Purchase> purchases_for(const std::vector<ProductAmount>& amounts,
                                                  const std::vector<CanSize>& sizes);

/// When a can that is opened now should be used up: its months of 30 days.
/// @return nothing where that is not known.
[[nodiscard]] std::optional<Time> use_by(const Storage& storage, Time opened);

}  // namespace coatwright
