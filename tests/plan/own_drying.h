#pragma once

#include <algorithm>
#include <cmath>
#include <list>
#include <map>
#include <optional>
#include <tuple>
#include <vector>

#include "air/air_record.h"
#include "drying/rate_law.h"
#include "plan/plan.h"

/// The drying clock once more, written from docs/formulas.md without the code of src/drying: rates
/// from their equations, integrals by walking over minutes, quantiles by bisection. Only the
/// parameters (Antoine sets, energies, hours) are the program's data.
namespace own {

using coatwright::AirRecord;
using coatwright::AirState;
using coatwright::Mechanism;
using coatwright::RateLaw;
using coatwright::Time;

inline constexpr double kReferenceKelvin = 296.15;

/// EVIDENCE: ashrae2017 ch. 1 eq. 6. @return Pa.
inline double saturation_pressure(double kelvin) {
  return std::exp(-5800.2206 / kelvin + 1.3914993 - 0.048640239 * kelvin +
                  4.1764768e-5 * kelvin * kelvin - 1.4452093e-8 * kelvin * kelvin * kelvin +
                  6.5459673 * std::log(kelvin));
}

/// The dew point by halving. @return K.
inline double dew_point(double kelvin, double humidity) {
  const double pressure = humidity * saturation_pressure(kelvin);
  double low = 200.0;
  double high = kelvin;
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2.0;
    (saturation_pressure(middle) < pressure ? low : high) = middle;
  }
  return high;
}

/// EVIDENCE: freiesleben1977, exp(E/R (1/T_ref - 1/T)).
inline double arrhenius(double kj_per_mol, double kelvin) {
  return std::exp(kj_per_mol * 1000.0 / 8.314462618 * (1.0 / kReferenceKelvin - 1.0 / kelvin));
}

inline double rate(const RateLaw& law, double kelvin, double humidity) {
  switch (law.mechanism) {
    case Mechanism::kElapsed:
      return 1.0;
    case Mechanism::kEvaporation: {
      const auto log_pressure = [&](double t) {
        return law.solvent->a - law.solvent->b / (t + law.solvent->c);
      };
      return std::pow(10.0, log_pressure(kelvin) - log_pressure(kReferenceKelvin));
    }
    case Mechanism::kWaterLoss:
      return saturation_pressure(kelvin) * (1.0 - humidity) /
             (saturation_pressure(kReferenceKelvin) * 0.5);
    case Mechanism::kOxidation:
      // Half the rate in saturated air, the full rate up to 75 %.
      return arrhenius(law.activation_kj_per_mol, kelvin) *
             std::min(1.0, 1.0 - 2.0 * (humidity - 0.75));
    case Mechanism::kMoistureCure:
      return arrhenius(law.activation_kj_per_mol, kelvin) * humidity * saturation_pressure(kelvin) /
             kelvin / (0.5 * saturation_pressure(kReferenceKelvin) / kReferenceKelvin);
    case Mechanism::kAcidCure:
      return kelvin < 273.15 + 14.0 ? 0.0 : arrhenius(law.activation_kj_per_mol, kelvin);
    case Mechanism::kCoalescence:
    case Mechanism::kTwoPart:
      return arrhenius(law.activation_kj_per_mol, kelvin);
  }
  return 0.0;
}

inline double normal_probability(double z) {
  return 0.5 * std::erfc(-z / std::sqrt(2.0));
}

/// By halving; the last few answers are kept, since a plan asks for the same confidence throughout.
inline double normal_deviate(double probability) {
  static std::map<double, double> known;
  const auto found = known.find(probability);
  if (found != known.end()) {
    return found->second;
  }
  double low = -9.0;
  double high = 9.0;
  for (int i = 0; i < 80; ++i) {
    const double middle = (low + high) / 2.0;
    (normal_probability(middle) < probability ? low : high) = middle;
  }
  return known.emplace(probability, low).first->second;
}

/// Quantile of the log-normal whose 10th and 90th percentiles are low and high.
inline double quantile(double low, double high, double probability) {
  const double z = normal_deviate(probability) / normal_deviate(0.9);
  return std::sqrt(low * high) * std::pow(high / low, z / 2.0);
}

/// Integrals over the air by trapezoids of one minute, summed up once for each law.
class Walk {
 public:
  /// @param start the first moment that is asked for.
  Walk(const AirRecord& air, Time start)
      : air_(air), start_(std::chrono::floor<std::chrono::minutes>(start)) {}

  /// Reference hours from one moment to another; nothing is earned below the gate.
  double earned(const RateLaw& law, std::optional<double> gate, Time from, Time to) {
    return to <= from ? 0.0
                      : sum_at(law, gate, minutes_to(to)) - sum_at(law, gate, minutes_to(from));
  }

  /// When so many hours are earned; nothing after `latest`.
  std::optional<Time> reached(
      const RateLaw& law, std::optional<double> gate, Time from, double hours, Time latest) {
    const double target = sum_at(law, gate, minutes_to(from)) + hours;
    std::vector<double>& sums = sums_of(law, gate);
    const auto last = static_cast<std::size_t>(minutes_to(latest)) + 2;
    while (sums.back() < target && sums.size() < last) {
      extend(law, gate, sums, sums.size() + kMinutesOfDay);
    }
    const auto next = std::lower_bound(sums.begin(), sums.end(), target);
    if (next == sums.end() || next == sums.begin()) {
      return next == sums.begin() ? std::optional(from) : std::nullopt;
    }
    const double before = *std::prev(next);
    const double minute =
        static_cast<double>(next - sums.begin()) - 1.0 + (target - before) / (*next - before);
    const Time at = start_ + std::chrono::seconds(std::llround(minute * 60.0));
    return at <= latest ? std::optional(at) : std::nullopt;
  }

  struct Air {
    double kelvin;
    double humidity;
  };
  /// The air at the whole minute.
  Air at(Time time) { return sample(static_cast<std::size_t>(minutes_to(time))); }

 private:
  static constexpr std::size_t kMinutesOfDay = 24 * 60;

  [[nodiscard]] double minutes_to(Time time) const {
    return static_cast<double>((time - start_).count()) / 60.0;
  }

  double sum_at(const RateLaw& law, std::optional<double> gate, double minute) {
    std::vector<double>& sums = sums_of(law, gate);
    const auto whole = static_cast<std::size_t>(minute);
    extend(law, gate, sums, whole + 2);
    return sums[whole] + (minute - static_cast<double>(whole)) * (sums[whole + 1] - sums[whole]);
  }

  std::vector<double>& sums_of(const RateLaw& law, std::optional<double> gate) {
    for (auto& [known_law, known_gate, sums] : sums_) {
      if (known_law == law && known_gate == gate) {
        return sums;
      }
    }
    return std::get<2>(sums_.emplace_back(law, gate, std::vector<double>{0.0}));
  }

  void extend(const RateLaw& law,
              std::optional<double> gate,
              std::vector<double>& sums,
              std::size_t count) {
    while (sums.size() < count) {
      sums.push_back(sums.back() +
                     minute_of(law, gate, sample(sums.size() - 1), sample(sums.size())));
    }
  }

  Air sample(std::size_t minute) {
    while (samples_.size() <= minute) {
      const AirState state = air_.at(start_ + std::chrono::minutes(samples_.size()));
      samples_.push_back({state.temperature.kelvin(), state.humidity.fraction()});
    }
    return samples_[minute];
  }

  /// A trapezoid, cut where the temperature crosses the gate.
  static double minute_of(const RateLaw& law, std::optional<double> gate, Air a, Air b) {
    double share = 1.0;
    if (gate) {
      const double above_a = a.kelvin - *gate + 1e-9;
      const double above_b = b.kelvin - *gate + 1e-9;
      if (above_a < 0.0 && above_b < 0.0) {
        return 0.0;
      }
      if (above_a < 0.0 || above_b < 0.0) {
        share = std::max(above_a, above_b) / std::abs(above_a - above_b);
      }
    }
    return share * (rate(law, a.kelvin, a.humidity) + rate(law, b.kelvin, b.humidity)) / 2.0 / 60.0;
  }

  const AirRecord& air_;
  Time start_;
  std::vector<Air> samples_;
  std::list<std::tuple<RateLaw, std::optional<double>, std::vector<double>>> sums_;
};

}  // namespace own
