#pragma once

#include <optional>

#include "scheduling/windows.h"

namespace coatwright {

/// The project with a part of each day for either side of an exclusion, so that they do not take
/// turns all day long: what leaves nothing behind first, what lasts after its work, as a film that
/// is wet, from then on until the day is over. The parts are as long as the work of a side wants,
/// and overlap a little. The first days are left whole, for not much of the other side is there
/// yet. A day ends with the first break in which all that lasts is over.
/// Its schedules are schedules of the project, and a search finds full ones sooner among them; the
/// best need not be among them. Source: ours.
/// @param windows of the project, drawn from all lags.
/// @return none without an exclusion that has some work on both sides and breaks after which
/// nothing of it lasts.
[[nodiscard]] std::optional<Project> with_divided_days(const Project& project,
                                                       const LagNetwork& network,
                                                       const Windows& windows);

}  // namespace coatwright
