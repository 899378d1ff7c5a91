#pragma once

#include "base/units.h"

/// Moist air. All humidities are relative to saturation over liquid water, as hygrometers state it,
/// also below freezing; the frost point is the one figure that is taken over ice.
namespace coatwright {

/// Standard atmosphere at sea level. Source: ISO 2533; ASHRAE Fundamentals 2017 ch. 1 table 1.
inline constexpr Pressure kSeaLevelPressure = Pressure::from_pascal(101325.0);

/// Saturation vapour pressure over liquid water.
/// @param temperature -40 .. 200 C (below 0 C over supercooled water).
/// Source: [ashrae2017] ch. 1 eq. 6 (Hyland and Wexler 1983).
/// Valid: 0 .. 200 C; below 0 C the equation is continued.
[[nodiscard]] Pressure saturation_pressure_over_water(Temperature temperature);

/// Saturation vapour pressure over ice.
/// @param temperature -100 .. 0.01 C. Source: [ashrae2017] ch. 1 eq. 5.
[[nodiscard]] Pressure saturation_pressure_over_ice(Temperature temperature);

/// Partial pressure of water vapour.
[[nodiscard]] Pressure vapour_pressure(Temperature temperature, RelativeHumidity humidity);

/// How far the air is from saturated: p_ws (1 - RH). Source: definition.
[[nodiscard]] Pressure vapour_pressure_deficit(Temperature temperature, RelativeHumidity humidity);

/// Mass of vapour per mass of dry air. @param vapour below `pressure`.
/// Source: [ashrae2017] ch. 1 eq. 20.
[[nodiscard]] HumidityRatio humidity_ratio_from_vapour_pressure(
    Pressure vapour, Pressure pressure = kSeaLevelPressure);

/// As above, of air. Source: [ashrae2017] ch. 1 eq. 20.
[[nodiscard]] HumidityRatio humidity_ratio_from_relative_humidity(
    Temperature temperature, RelativeHumidity humidity, Pressure pressure = kSeaLevelPressure);

/// The inverse of humidity_ratio_from_relative_humidity; capped at saturation (1.0).
[[nodiscard]] RelativeHumidity relative_humidity_from_humidity_ratio(
    Temperature temperature, HumidityRatio ratio, Pressure pressure = kSeaLevelPressure);

/// Temperature at which vapour of this pressure is saturated over liquid water: the dew point.
/// @param pressure above 0. Accuracy: inverted by Newton's method to 1e-6 K.
[[nodiscard]] Temperature dew_point_from_vapour_pressure(Pressure pressure);

/// As the dew point, over ice: the frost point, up to 2.4 K higher than the dew point.
/// @param pressure above 0 and below 611.657 Pa.
[[nodiscard]] Temperature frost_point_from_vapour_pressure(Pressure pressure);

/// Dew point of air. @param humidity above 0; 0 is treated as 0.1 %.
[[nodiscard]] Temperature dew_point(Temperature temperature, RelativeHumidity humidity);

/// Mass of water vapour per volume of air, kg/m3, by the ideal gas law.
[[nodiscard]] double absolute_humidity_kg_per_m3(Temperature temperature,
                                                 RelativeHumidity humidity);

}  // namespace coatwright
