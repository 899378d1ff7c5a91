#pragma once

#include "base/units.h"

namespace coatwright {

/// The share of a range's variance (of the logarithm) that is this shop's and therefore the same
/// for all its coats; the rest is this coat's. Source: judgement, no source.
inline constexpr double kShopShareOfVariance = 0.5;

/// A duration known as a range: low and high are the 10th and 90th percentile of a log-normal.
/// A duration that is known as one figure has low = high and no spread.
class DurationRange {
 public:
  /// @param low above 0; @param high at least low. @param shop_share of the variance; 0 to 1.
  DurationRange(Hours low, Hours high, double shop_share = kShopShareOfVariance)
      : low_(low), high_(high), shop_share_(shop_share) {}

  [[nodiscard]] Hours low() const { return low_; }
  [[nodiscard]] Hours high() const { return high_; }
  /// The share of the variance that all coats of this shop have in common.
  [[nodiscard]] double shop_share() const { return shop_share_; }
  /// Standard deviation of the natural logarithm.
  [[nodiscard]] double log_spread() const;
  /// @param z standard normal deviate. @return exp(mean + z spread).
  [[nodiscard]] Hours at_deviate(double z) const;
  /// @param probability above 0 and below 1.
  [[nodiscard]] Hours quantile(double probability) const;
  /// @return the deviate of a duration; +-40 where the range has no spread.
  [[nodiscard]] double deviate_of(Hours duration) const;
  [[nodiscard]] DurationRange scaled(double factor) const {
    return {low_ * factor, high_ * factor, shop_share_};
  }
  bool operator==(const DurationRange&) const = default;

 private:
  Hours low_;
  Hours high_;
  double shop_share_;
};

/// Standard normal distribution function. Source: definition by the complementary error function.
[[nodiscard]] double normal_probability(double z);
/// Its inverse. @param probability above 0 and below 1.
/// Source: [acklam2003] rational approximation, one Halley step. Accuracy: 1e-14 relative.
[[nodiscard]] double normal_deviate(double probability);

}  // namespace coatwright
