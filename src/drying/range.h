#pragma once

#include "base/units.h"

namespace coatwright {

/// A duration known as a range: low and high are the 10th and 90th percentile of a log-normal.
/// A duration that is known as one figure has low = high and no spread.
class DurationRange {
 public:
  /// @param low above 0; @param high at least low.
  DurationRange(Hours low, Hours high) : low_(low), high_(high) {}

  [[nodiscard]] Hours low() const { return low_; }
  [[nodiscard]] Hours high() const { return high_; }
  /// Standard deviation of the natural logarithm.
  [[nodiscard]] double log_spread() const;
  /// @param z standard normal deviate. @return exp(mean + z spread).
  [[nodiscard]] Hours at_deviate(double z) const;
  /// @param probability above 0 and below 1.
  [[nodiscard]] Hours quantile(double probability) const;
  /// @return the deviate of a duration; +-40 where the range has no spread.
  [[nodiscard]] double deviate_of(Hours duration) const;
  [[nodiscard]] DurationRange scaled(double factor) const {
    return {low_ * factor, high_ * factor};
  }
  bool operator==(const DurationRange&) const = default;

 private:
  Hours low_;
  Hours high_;
};

/// Standard normal distribution function. Source: definition by the complementary error function.
[[nodiscard]] double normal_probability(double z);
/// Its inverse. @param probability above 0 and below 1.
/// Source: [acklam2003] rational approximation, one Halley step. Accuracy: 1e-14 relative.
[[nodiscard]] double normal_deviate(double probability);

}  // namespace coatwright
