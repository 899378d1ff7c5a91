#pragma once

#include <utility>
#include <vector>

#include "base/units.h"
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

}  // namespace coatwright
