#pragma once

#include <map>
#include <string>
#include <utility>

#include "drying/stage.h"

namespace coatwright {

/// How this shop dries what goes by one mechanism, as its own touch tests have it: where in a
/// range its coats lie. Deviates are those of the range as it is labelled; a shop of which nothing
/// is known lies at 0, and its next coat between -1.28 and 1.28.
struct ShopPace {
  double coat_low = 0;                       ///< 10th percentile of the deviate of the next coat.
  double coat_high = 0;                      ///< 90th percentile.
  double shop_share = kShopShareOfVariance;  ///< Of the variance that is left.
  double shop_low = 0;                       ///< 5th percentile of the shop's own part, as a
  double shop_middle = 0;                    ///< standard deviate of that part; median;
  double shop_high = 0;                      ///< 95th percentile.
  int coats = 0;                             ///< Whose touch tests it rests on.

  bool operator==(const ShopPace&) const = default;
};

/// The range that a shop's pace makes of a labelled one.
[[nodiscard]] DurationRange paced(const DurationRange& labelled, const ShopPace& pace);

/// How many times longer than the middle of its range a stage takes in a shop. @param shop_deviate
/// of the shop's part.
[[nodiscard]] double shop_factor(const DurationRange& labelled, double shop_deviate);

/// The mechanism whose pace a stage goes by: that of the phase which ends it.
[[nodiscard]] Mechanism pacing_mechanism(const StageTiming& timing);

/// The paces of a shop: by mechanism, and for a product that was tested by the product too.
class ShopPaces {
 public:
  void set(Mechanism mechanism, const ShopPace& pace) { set(mechanism, "", pace); }
  void set(Mechanism mechanism, const std::string& product, const ShopPace& pace) {
    paces_[{mechanism, product}] = pace;
  }
  /// Takes over what others say.
  void overrule(const ShopPaces& others);
  /// @return null: nothing was learned of the mechanism.
  [[nodiscard]] const ShopPace* of(Mechanism mechanism, const std::string& product) const;
  [[nodiscard]] bool empty() const { return paces_.empty(); }
  /// How many coats each mechanism's pace rests on.
  [[nodiscard]] std::map<Mechanism, int> coats() const;

 private:
  std::map<std::pair<Mechanism, std::string>, ShopPace> paces_;  ///< No product: any other.
};

}  // namespace coatwright
