#include "air/wet_bulb.h"

#include <algorithm>

namespace coatwright {
namespace {

// Constants of [ashrae2017] ch. 1 eq. 33 and 35, in kJ/kg and kJ/(kg K).
constexpr double kDryAirHeat = 1.006;
constexpr double kVapourHeat = 1.86;

/// What the bulb is covered with; its enthalpy below is that of eq. 33 or 35.
struct Cover {
  double latent_at_zero;  ///< kJ/kg, from the cover at 0 C to vapour
  double latent_slope;    ///< kJ/(kg K), by which it falls with the bulb's temperature
  double cover_heat;      ///< kJ/(kg K), of the cover itself
  Pressure (*saturation)(Temperature);
  Temperature coldest;  ///< at which there is such a cover, and the equations hold
};
constexpr Temperature kFreezing = Temperature::from_celsius(0.0);
constexpr Cover kWater = {2501.0, 2.326, 4.186, saturation_pressure_over_water, kFreezing};
constexpr Cover kIce = {
    2830.0, 0.24, 2.1, saturation_pressure_over_ice, Temperature::from_celsius(-100.0)};

double humidity_ratio(const Cover& cover, Temperature air, Temperature bulb, Pressure pressure) {
  const double t = air.celsius();
  const double tw = bulb.celsius();
  const double saturated =
      humidity_ratio_from_vapour_pressure(cover.saturation(bulb), pressure).kg_per_kg();
  const double latent = cover.latent_at_zero - cover.latent_slope * tw;
  return (latent * saturated - kDryAirHeat * (t - tw)) /  // [ashrae2017] ch. 1 eq. 33 and 35
         (cover.latent_at_zero + kVapourHeat * t - cover.cover_heat * tw);
}

/// The bulb's temperature up to `warmest`, found by halving: the ratio rises with it.
Temperature bulb_temperature(
    const Cover& cover, Temperature air, double ratio, Pressure pressure, Temperature warmest) {
  constexpr double kToleranceKelvin = 1e-6;
  double low = cover.coldest.kelvin();
  double high = warmest.kelvin();
  while (high - low > kToleranceKelvin) {
    const double middle = (low + high) / 2.0;
    const auto bulb = Temperature::from_kelvin(middle);
    (humidity_ratio(cover, air, bulb, pressure) > ratio ? high : low) = middle;
  }
  return Temperature::from_kelvin(high);
}

}  // namespace

HumidityRatio humidity_ratio_from_wet_bulb(Temperature temperature,
                                           Temperature wet_bulb,
                                           Pressure pressure) {
  const Cover& cover = wet_bulb < kFreezing ? kIce : kWater;
  return HumidityRatio::from_kg_per_kg(humidity_ratio(cover, temperature, wet_bulb, pressure));
}

Temperature wet_bulb(Temperature temperature, RelativeHumidity humidity, Pressure pressure) {
  const double ratio =
      humidity_ratio_from_relative_humidity(temperature, humidity, pressure).kg_per_kg();
  const bool thawed =
      temperature >= kFreezing && humidity_ratio(kWater, temperature, kFreezing, pressure) <= ratio;
  const Cover& cover = thawed ? kWater : kIce;
  const Temperature warmest = thawed ? temperature : std::min(temperature, kFreezing);
  return bulb_temperature(cover, temperature, ratio, pressure, warmest);
}

}  // namespace coatwright
