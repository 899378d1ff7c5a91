#pragma once

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
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

inline double normal_deviate(double probability) {
  double low = -9.0;
  double high = 9.0;
  for (int i = 0; i < 80; ++i) {
    const double middle = (low + high) / 2.0;
    (normal_probability(middle) < probability ? low : high) = middle;
  }
  return low;
}

/// Quantile of the log-normal whose 10th and 90th percentiles are low and high.
inline double quantile(double low, double high, double probability) {
  const double z = normal_deviate(probability) / normal_deviate(0.9);
  return std::sqrt(low * high) * std::pow(high / low, z / 2.0);
}

/// Integrals over the air, minute by minute; what a minute's air was is remembered.
class Walk {
 public:
  explicit Walk(const AirRecord& air) : air_(air) {}

  /// Reference hours from one moment to another; nothing is earned below the gate.
  double earned(const RateLaw& law, std::optional<double> gate, Time from, Time to) {
    double sum = 0.0;
    for (Time at = from; at < to;) {
      const Time next = std::min(to, next_minute(at));
      sum += piece(law, gate, at, next);
      at = next;
    }
    return sum;
  }

  /// When so many hours are earned, to the second within its minute; nothing after `latest`.
  std::optional<Time> reached(
      const RateLaw& law, std::optional<double> gate, Time from, double hours, Time latest) {
    double sum = 0.0;
    for (Time at = from; at < latest;) {
      const Time next = std::min(latest, next_minute(at));
      const double more = piece(law, gate, at, next);
      if (more > 0.0 && sum + more >= hours) {
        const double share = (hours - sum) / more;
        return at +
               std::chrono::seconds(std::llround(share * static_cast<double>((next - at).count())));
      }
      sum += more;
      at = next;
    }
    return std::nullopt;
  }

  struct Air {
    double kelvin;
    double humidity;
  };
  Air at(Time time) {
    const Time minute = std::chrono::floor<std::chrono::minutes>(time);
    const Air& before = sample(minute);
    if (time == minute) {
      return before;
    }
    const Air& after = sample(minute + std::chrono::minutes(1));
    const double share = static_cast<double>((time - minute).count()) / 60.0;
    return {before.kelvin + share * (after.kelvin - before.kelvin),
            before.humidity + share * (after.humidity - before.humidity)};
  }

 private:
  static Time next_minute(Time at) {
    return std::chrono::floor<std::chrono::minutes>(at) + std::chrono::minutes(1);
  }

  const Air& sample(Time minute) {
    const auto found = samples_.find(minute);
    if (found != samples_.end()) {
      return found->second;
    }
    const AirState state = air_.at(minute);
    return samples_.emplace(minute, Air{state.temperature.kelvin(), state.humidity.fraction()})
        .first->second;
  }

  /// A trapezoid over at most a minute, cut where the temperature crosses the gate.
  double piece(const RateLaw& law, std::optional<double> gate, Time from, Time to) {
    const Air a = at(from);
    const Air b = at(to);
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
    const double mean = (rate(law, a.kelvin, a.humidity) + rate(law, b.kelvin, b.humidity)) / 2.0;
    return share * mean * static_cast<double>((to - from).count()) / 3600.0;
  }

  const AirRecord& air_;
  std::map<Time, Air> samples_;
};

}  // namespace own
