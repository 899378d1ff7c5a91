#pragma once

#include "air/air_record.h"
#include "base/time.h"

/// The air as it would be if something in the shop were changed. Only a what-if: outside of the
/// stretch that is changed, and as far back as is asked for, the air stays what it is.
namespace coatwright {

/// Nothing is warmed beyond this. Source: judgement; finishes skin over and films trap solvent in
/// hotter air, and no shop is heated further.
inline constexpr Temperature kWarmest = Temperature::from_celsius(30.0);

/// The air with its temperature raised at constant humidity ratio, as a heater without water in its
/// exhaust does it; no hour is raised beyond kWarmest. @param rise above 0.
/// @param known_from the earliest moment that will be asked about; before it the usual day counts.
/// @param during when it is warmed; known_from < start < end.
/// Source: heating at constant humidity ratio, [ashrae2017] ch. 1. Accuracy: up to 0.5 C low in the
/// hour in which kWarmest is reached.
[[nodiscard]] AirRecord warmed(const AirRecord& air,
                               Time known_from,
                               Interval during,
                               TemperatureDifference rise);

/// The air with its humidity held at or below a limit, as a dehumidifier does it; its own warmth is
/// left out. @param at_most above 0. The others as of warmed(). Accuracy: up to 0.2 points above
/// the limit between two corners, where temperature changes by the hour.
[[nodiscard]] AirRecord dried(const AirRecord& air,
                              Time known_from,
                              Interval during,
                              RelativeHumidity at_most);

/// The shop's air up to a moment, and from then on that of a house, the same day and night; between
/// the two it runs over AirRecord::kReach. @param shop good from `from` to `moved`.
[[nodiscard]] AirRecord shop_then_house(const AirRecord& shop,
                                        Time from,
                                        Time moved,
                                        const UsualDay& house);

}  // namespace coatwright
