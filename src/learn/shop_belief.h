#pragma once

#include <string>
#include <vector>

#include "drying/shop_pace.h"

namespace coatwright {

/// What the touch tests of one coat say: the deviate of its stages, in their ranges as labelled,
/// lies above one figure and not above the other.
struct CoatInterval {
  std::string product;
  Mechanism mechanism = Mechanism::kElapsed;
  double above = 0;    ///< A stage was not yet reached there; -kWidestDeviate: nothing says so.
  double at_most = 0;  ///< It was reached there; kWidestDeviate: nothing says so.
};

/// Beyond it no coat lies.
inline constexpr double kWidestDeviate = 8.0;

/// What is taken of a shop before its first touch test.
struct ShopPrior {
  double shop_share = kShopShareOfVariance;  ///< Of a range's variance: the shop's.
  /// Of the shop's variance: the part that is one product's own. Source: judgement, no source.
  double product_share = 0.25;
};

/// What is believed of the shop's part of the ranges: a distribution on a grid of its deviate.
class ShopBelief {
 public:
  /// @param log_weights at the points of the grid, to any common term.
  ShopBelief(std::vector<double> log_weights, double shop_share);

  /// The points at which weights are given: from -kWidestDeviate to kWidestDeviate.
  [[nodiscard]] static const std::vector<double>& grid();
  /// The logarithm of how likely coats are, at each point. Source: derived, interval-censored
  /// normal deviates.
  [[nodiscard]] static std::vector<double> log_likelihood(const std::vector<CoatInterval>& coats,
                                                          double shop_share);

  [[nodiscard]] double mean() const;
  [[nodiscard]] double variance() const;
  /// @param probability above 0 and below 1. @return the shop's deviate.
  [[nodiscard]] double quantile(double probability) const;
  /// The same of the deviate of its next coat in the range as labelled.
  [[nodiscard]] double coat_quantile(double probability) const;
  [[nodiscard]] ShopPace pace(int coats) const;

 private:
  std::vector<double> weights_;  ///< Their sum is 1.
  double shop_share_;
};

/// What the coats make of the prior. The shop's part of a range is sqrt(1 - q) times what its
/// mechanism has in common, plus sqrt(q) times what is the product's own, each a standard normal
/// deviate (q: the product's share); a coat's own part is drawn anew for each. All sums over the
/// grid are exact to its width, nothing is drawn.
/// Source: derived, Bayes' rule for a one-way hierarchy [gelman2013].
[[nodiscard]] ShopPaces paces_from(const std::vector<CoatInterval>& coats,
                                   const ShopPrior& prior = {});

/// The paces of one coat that was tested itself: where the shop's next coat may lie, cut to the
/// stretch that its own tests leave. Only of the mechanisms that were tested, and of its product.
/// Source: derived, a truncated normal; that the shop's pace knows of this coat too is neglected.
[[nodiscard]] ShopPaces paces_of_coat(const std::vector<CoatInterval>& own, const ShopPaces& shop);

}  // namespace coatwright
