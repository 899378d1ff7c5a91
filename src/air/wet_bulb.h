#pragma once

#include "air/moist_air.h"

/// The thermodynamic wet bulb: the temperature at which water (below 0 C: ice) evaporating into the
/// air brings it adiabatically to saturation. A well-aired psychrometer reads within some tenths of
/// a degree of it.
namespace coatwright {

/// Humidity ratio of air with this wet bulb.
/// @param temperature -40 .. 60 C; @param wet_bulb at most `temperature`: from 0 C up of a wet
/// bulb, below of an iced one; @param pressure above the saturation pressure at `wet_bulb`.
/// @return the ratio; negative where no air of this temperature has so low a wet bulb.
/// Source: [ashrae2017] ch. 1 eq. 33 (water) and 35 (ice).
[[nodiscard]] HumidityRatio humidity_ratio_from_wet_bulb(Temperature temperature,
                                                         Temperature wet_bulb,
                                                         Pressure pressure = kSeaLevelPressure);

/// Thermodynamic wet bulb of air.
/// @param temperature -40 .. 60 C; @param humidity 0 .. 1, over liquid water below freezing too;
/// @param pressure above the saturation pressure at `temperature`.
/// @return from the dew point to the temperature. Where a wet bulb above 0 C and an iced one below
/// both fulfil the equations (air of 0 to 10 C) it is the wet one. Air that is damper than ice
/// allows has its own temperature as wet bulb.
/// Source: [ashrae2017] ch. 1 eq. 33 and 35, solved for the wet bulb.
/// Accuracy: bisected to 1e-6 K.
[[nodiscard]] Temperature wet_bulb(Temperature temperature,
                                   RelativeHumidity humidity,
                                   Pressure pressure = kSeaLevelPressure);

}  // namespace coatwright
