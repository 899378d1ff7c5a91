#include "drying/range.h"

#include <cmath>
#include <numbers>

namespace coatwright {
namespace {

constexpr double kDeviateOfHigh = 1.2815515655446004;  // 90th percentile of the standard normal
constexpr double kCertain = 40.0;                      // a deviate beyond any that matters

// Coefficients of [acklam2003].
constexpr double kA[] = {-3.969683028665376e+01,
                         2.209460984245205e+02,
                         -2.759285104469687e+02,
                         1.383577518672690e+02,
                         -3.066479806614716e+01,
                         2.506628277459239e+00};
constexpr double kB[] = {-5.447609879822406e+01,
                         1.615858368580409e+02,
                         -1.556989798598866e+02,
                         6.680131188771972e+01,
                         -1.328068155288572e+01};
constexpr double kC[] = {-7.784894002430293e-03,
                         -3.223964580411365e-01,
                         -2.400758277161838e+00,
                         -2.549732539343734e+00,
                         4.374664141464968e+00,
                         2.938163982698783e+00};
constexpr double kD[] = {
    7.784695709041462e-03, 3.224671290700398e-01, 2.445134137142996e+00, 3.754408661907416e+00};
constexpr double kTail = 0.02425;

double tail_deviate(double q) {
  return (((((kC[0] * q + kC[1]) * q + kC[2]) * q + kC[3]) * q + kC[4]) * q + kC[5]) /
         ((((kD[0] * q + kD[1]) * q + kD[2]) * q + kD[3]) * q + 1.0);
}

double rough_deviate(double p) {
  if (p < kTail) {
    return tail_deviate(std::sqrt(-2.0 * std::log(p)));
  }
  if (p > 1.0 - kTail) {
    return -tail_deviate(std::sqrt(-2.0 * std::log1p(-p)));
  }
  const double q = p - 0.5;
  const double r = q * q;
  return (((((kA[0] * r + kA[1]) * r + kA[2]) * r + kA[3]) * r + kA[4]) * r + kA[5]) * q /
         (((((kB[0] * r + kB[1]) * r + kB[2]) * r + kB[3]) * r + kB[4]) * r + 1.0);
}

}  // namespace

double normal_probability(double z) {
  return 0.5 * std::erfc(-z / std::numbers::sqrt2);
}

double normal_deviate(double probability) {
  const double z = rough_deviate(probability);
  const double error = normal_probability(z) - probability;
  const double step = error * std::sqrt(2.0 * std::numbers::pi) * std::exp(0.5 * z * z);
  return z - step / (1.0 + 0.5 * z * step);  // one step of Halley's method
}

double DurationRange::log_spread() const {
  return std::log(high_.hours() / low_.hours()) / (2.0 * kDeviateOfHigh);
}

Hours DurationRange::at_deviate(double z) const {
  const double middle = 0.5 * (std::log(low_.hours()) + std::log(high_.hours()));
  return Hours::from_hours(std::exp(middle + z * log_spread()));
}

Hours DurationRange::quantile(double probability) const {
  return at_deviate(normal_deviate(probability));
}

double DurationRange::deviate_of(Hours duration) const {
  if (duration.hours() <= 0.0) {
    return -kCertain;
  }
  const double middle = 0.5 * (std::log(low_.hours()) + std::log(high_.hours()));
  const double distance = std::log(duration.hours()) - middle;
  const double spread = log_spread();
  if (spread <= 0.0) {
    // A hair of tolerance: a duration that was just reached has been reached.
    return distance < -1e-9 ? -kCertain : kCertain;
  }
  return distance / spread;
}

}  // namespace coatwright
