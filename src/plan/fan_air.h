#pragma once

#include <functional>
#include <optional>

#include "plan/plan.h"

namespace coatwright {

/// Makes a plan for an air.
using PlanMaker = std::function<Result<Plan>(const AirRecord& air)>;

/// A plan whose air is that of the hours in which its own fan runs: planned, the fan's hours read
/// off it, planned again in the air that the fan then draws in, until its hours hold; at most six
/// times. Where they do not hold, a coat that its own fan takes out of its product's limits is
/// named, and the plan does not fit. Without a known room, a fan that counts, or outdoor air the
/// plan is as `make` has it.
/// @param outdoors as it is outdoors; none: not known. @param known the span that plans ask about.
/// Errors: as `make`.
[[nodiscard]] Result<Plan> plan_in_fan_air(const PlanMaker& make,
                                           const AirRecord& air,
                                           const std::optional<AirRecord>& outdoors,
                                           Interval known);

}  // namespace coatwright
