#pragma once

#include "scheduling/priced_relaxation.h"

namespace coatwright {

/// Moves prices so that the bound that follows from them rises.
/// Source: subgradient steps towards a target [held1974], along a direction that remembers the one
/// before [camerini1975].
class PriceAscent {
 public:
  /// @param prices to begin with.
  PriceAscent(PricedRelaxation& relaxation, Prices prices)
      : relaxation_(relaxation), prices_(std::move(prices)), best_prices_(prices_) {}

  /// Looks at the prices, and moves them on. @param target that the bound may reach, above it.
  /// @return what bound follows from the prices before, in 1 / kPriceUnit; kNoCost when no starts
  /// keep the lags.
  std::int64_t step(std::int64_t target);
  /// The best bound so far.
  [[nodiscard]] std::int64_t best() const { return best_; }
  [[nodiscard]] const Prices& best_prices() const { return best_prices_; }
  /// What all that the pools have is worth at the prices that are looked at next.
  [[nodiscard]] std::int64_t worth() const;
  /// Whether steps have become too short to matter, or none leads on.
  [[nodiscard]] bool is_over() const { return part_ <= kLeastPart; }

 private:
  static constexpr std::int64_t kWhole = 4096;  ///< Of the step to the target.
  static constexpr std::int64_t kLeastPart = 4;

  void move(std::int64_t missing);

  PricedRelaxation& relaxation_;
  Prices prices_;
  Prices best_prices_;
  std::int64_t best_ = -PricedRelaxation::kNoCost;
  std::vector<std::int64_t> direction_;
  std::int64_t part_ = kWhole;
  int without_gain_ = 0;
};

}  // namespace coatwright
