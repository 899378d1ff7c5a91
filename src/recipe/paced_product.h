#pragma once

#include <cstdint>
#include <map>

#include "drying/shop_pace.h"
#include "recipe/product.h"

/// A product as this shop's own touch tests have it dry.
namespace coatwright {

/// What a shop has learned, and how far it lets that go.
struct LearnedPaces {
  ShopPaces paces;
  /// Whether a recoat may open before the label's least; only where the maker has said so.
  bool recoat_below_label = false;
  /// Of coats that were tested themselves, by their numbers in the log.
  std::map<std::int64_t, ShopPaces> of_coats;

  /// The paces for one coat: its own where it was tested, else the shop's.
  [[nodiscard]] LearnedPaces for_coat(std::int64_t number) const;
};

/// The product with its stages and recoat windows at the shop's pace. What is there for safety or
/// is the label's order stays on the label's side: a window closes no later than labelled, a
/// recoat opens no earlier than the label's least unless the shop has said so, light use and full
/// cure come no earlier than labelled; wipe-off, pot life, limits and hazards are as they were.
/// Source: judgement, the cautious side.
[[nodiscard]] Product paced(const Product& labelled, const LearnedPaces& learned);

/// The same for a recoat interval of the compatibility table over a product.
[[nodiscard]] RecoatInterval paced(const RecoatInterval& labelled,
                                   const std::string& product,
                                   const LearnedPaces& learned);

/// A product as it is labelled.
[[nodiscard]] Product as_labelled(const Product& product);

}  // namespace coatwright
