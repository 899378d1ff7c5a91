#pragma once

#include <cstdint>
#include <functional>

#include "scheduling/project.h"

namespace coatwright {

/// A schedule with fewer breaks, and what it cost to find.
struct FewerBreaks {
  StartTimes schedule;
  std::int64_t placements = 0;
};

/// Draws the work of a whole schedule together, so that there are fewer breaks in it (WorkBreaks),
/// or as many and a smaller sum of ends. Lateness and end do not grow, and every rule stays kept.
/// A local search: work on one side of a break, or a single activity of it, is moved to the work on
/// the other side and to that near by, and what this moves along with it. The fewest are not
/// promised.
/// @param schedule one that keeps every rule. @param people as for WorkBreaks. @param placements at
/// most about so many. @param may_be asked of each schedule that is better; false: it is not taken.
/// @param stop asked now and then; true ends it. May be empty.
[[nodiscard]] FewerBreaks fewer_breaks(const Project& project,
                                       int people,
                                       const StartTimes& schedule,
                                       std::int64_t placements,
                                       const std::function<bool(const StartTimes&)>& may_be,
                                       const std::function<bool()>& stop);

}  // namespace coatwright
