#include "air/moist_air.h"

#include <algorithm>
#include <cmath>

namespace coatwright {
namespace {

// Hyland and Wexler's coefficients under the handbook's names; T in K, p in Pa.
// Over ice: Source [ashrae2017] ch. 1 eq. 5, [hyland_wexler1983].
constexpr double kC1 = -5.6745359e3;    // K
constexpr double kC2 = 6.3925247;       // 1
constexpr double kC3 = -9.6778430e-3;   // 1/K
constexpr double kC4 = 6.2215701e-7;    // 1/K2
constexpr double kC5 = 2.0747825e-9;    // 1/K3
constexpr double kC6 = -9.4840240e-13;  // 1/K4
constexpr double kC7 = 4.1635019;       // 1
// Over liquid water: Source [ashrae2017] ch. 1 eq. 6, [hyland_wexler1983].
constexpr double kC8 = -5.8002206e3;    // K
constexpr double kC9 = 1.3914993;       // 1
constexpr double kC10 = -4.8640239e-2;  // 1/K
constexpr double kC11 = 4.1764768e-5;   // 1/K2
constexpr double kC12 = -1.4452093e-8;  // 1/K3
constexpr double kC13 = 6.5459673;      // 1

// Molar mass of water over that of dry air, 1. Source: [ashrae2017] ch. 1 eq. 20.
constexpr double kMolarMassRatio = 0.621945;
// Gas constant of water vapour, J/(kg K). Source: [ashrae2017] ch. 1 eq. 2, value from memory;
// equal to 8.314472 J/(mol K) over 0.018015268 kg/mol.
constexpr double kVapourGasConstant = 461.524;

// A hygrometer that shows 0 % has no dew point; this stands for "very dry". Source: judgement.
constexpr double kDriestForDewPoint = 0.001;

// ln(p / Pa) and its derivative by 1/T, which is nearly constant (Clausius and Clapeyron): Newton's
// method in 1/T therefore runs home from anywhere.
struct LogPressure {
  double value;
  double slope;  // K
};

LogPressure log_pressure_over_ice(double t) {
  const double value =  // [ashrae2017] ch. 1 eq. 5
      kC1 / t + kC2 + t * (kC3 + t * (kC4 + t * (kC5 + t * kC6))) + kC7 * std::log(t);
  const double by_t = -kC1 / (t * t) + kC3 + t * (2 * kC4 + t * (3 * kC5 + t * 4 * kC6)) + kC7 / t;
  return {value, -t * t * by_t};
}

LogPressure log_pressure_over_water(double t) {
  const double value =  // [ashrae2017] ch. 1 eq. 6
      kC8 / t + kC9 + t * (kC10 + t * (kC11 + t * kC12)) + kC13 * std::log(t);
  const double by_t = -kC8 / (t * t) + kC10 + t * (2 * kC11 + t * 3 * kC12) + kC13 / t;
  return {value, -t * t * by_t};
}

// The temperature at which `log_pressure` gives this pressure.
Temperature invert(LogPressure (*log_pressure)(double), Pressure pressure) {
  constexpr double kSmallStepKelvin = 1e-9;
  constexpr int kMostSteps = 50;
  const double wanted = std::log(pressure.pascal());
  double t = Temperature::kIcePointKelvin;
  for (int step = 0; step < kMostSteps; ++step) {
    const LogPressure here = log_pressure(t);
    const double next = 1.0 / (1.0 / t + (wanted - here.value) / here.slope);
    const bool done = std::abs(next - t) < kSmallStepKelvin;
    t = next;
    if (done) {
      break;
    }
  }
  return Temperature::from_kelvin(t);
}

}  // namespace

Pressure saturation_pressure_over_water(Temperature temperature) {
  return Pressure::from_pascal(std::exp(log_pressure_over_water(temperature.kelvin()).value));
}

Pressure saturation_pressure_over_ice(Temperature temperature) {
  return Pressure::from_pascal(std::exp(log_pressure_over_ice(temperature.kelvin()).value));
}

Pressure vapour_pressure(Temperature temperature, RelativeHumidity humidity) {
  return Pressure::from_pascal(humidity.fraction() *
                               saturation_pressure_over_water(temperature).pascal());
}

Pressure vapour_pressure_deficit(Temperature temperature, RelativeHumidity humidity) {
  return Pressure::from_pascal((1.0 - humidity.fraction()) *
                               saturation_pressure_over_water(temperature).pascal());
}

HumidityRatio humidity_ratio_from_vapour_pressure(Pressure vapour, Pressure pressure) {
  const double e = vapour.pascal();
  const double w = kMolarMassRatio * e / (pressure.pascal() - e);  // [ashrae2017] ch. 1 eq. 20
  return HumidityRatio::from_kg_per_kg(w);
}

HumidityRatio humidity_ratio_from_relative_humidity(Temperature temperature,
                                                    RelativeHumidity humidity,
                                                    Pressure pressure) {
  return humidity_ratio_from_vapour_pressure(vapour_pressure(temperature, humidity), pressure);
}

RelativeHumidity relative_humidity_from_humidity_ratio(Temperature temperature,
                                                       HumidityRatio ratio,
                                                       Pressure pressure) {
  const double w = ratio.kg_per_kg();
  const double e = pressure.pascal() * w / (kMolarMassRatio + w);  // eq. 20 solved for e
  const double saturated = saturation_pressure_over_water(temperature).pascal();
  return RelativeHumidity::from_fraction(std::min(1.0, e / saturated));
}

Temperature dew_point_from_vapour_pressure(Pressure pressure) {
  return invert(log_pressure_over_water, pressure);
}

Temperature frost_point_from_vapour_pressure(Pressure pressure) {
  return invert(log_pressure_over_ice, pressure);
}

Temperature dew_point(Temperature temperature, RelativeHumidity humidity) {
  const auto moist = std::max(humidity, RelativeHumidity::from_fraction(kDriestForDewPoint));
  const Temperature dew = dew_point_from_vapour_pressure(vapour_pressure(temperature, moist));
  return std::min(dew, temperature);  // saturated air must not come out above itself by rounding
}

double absolute_humidity_kg_per_m3(Temperature temperature, RelativeHumidity humidity) {
  return vapour_pressure(temperature, humidity).pascal() /
         (kVapourGasConstant * temperature.kelvin());  // ideal gas law
}

}  // namespace coatwright
