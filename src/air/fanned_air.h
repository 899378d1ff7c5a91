#pragma once

#include <vector>

#include "air/air_record.h"
#include "base/time.h"

namespace coatwright {

/// How much of the way to the outdoor temperature the air that a fan draws in brings the shop's:
/// the heating and the warmth of walls and wood make up for the rest. Source: judgement.
inline constexpr double kShareOfOutdoorTemperature = 0.5;
/// How often in an hour the shop's air comes back to what it is without the fan, once that is off.
/// Source: judgement.
inline constexpr double kComesBackPerHour = 1.0;

/// The shop's air while an exhaust fan draws outdoor air in: the humidity ratio goes to that of the
/// outdoor air, the temperature a share of the way to its, both as the room's air is changed,
///     dx/dt = n (x_drawn_in - x),
/// and back once the fan is off. Measured air stays what it was, and so does all air outside of the
/// fan's hours and the four after each; within AirRecord::kReach of those it runs linearly into
/// them.
/// @param outdoors as it is outdoors, not turned into shop air. @param runs of the fan, in order.
/// @param changes_per_hour n, above 0. @param known the span that will be asked about.
/// Source: the mass balance of a mixed room, [ashrae2017] for the humidity ratio; the shares are
/// judgement. Accuracy: steps of 5 minutes.
[[nodiscard]] AirRecord fanned(const AirRecord& shop,
                               const AirRecord& outdoors,
                               const std::vector<Interval>& runs,
                               double changes_per_hour,
                               Interval known);

}  // namespace coatwright
