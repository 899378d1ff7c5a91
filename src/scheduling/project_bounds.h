#pragma once

#include <functional>

#include "scheduling/project.h"

namespace coatwright {

/// What no schedule of a project can beat, without searching for one.
struct ProjectBounds {
  std::int64_t lateness = 0;  ///< Ticks times weight, over the jobs.
  Tick end = 0;               ///< However late its jobs may be.
};

/// @param known what a schedule costs; the bounds are not above it. @param effort about how many
/// starts may be looked at. @param stop asked now and then; true ends the search for better bounds.
/// May be empty.
/// @return nothing where the lags alone leave no schedule up to the horizon.
[[nodiscard]] std::optional<ProjectBounds> bounds_of(const Project& project,
                                                     const ProjectBounds& known,
                                                     std::int64_t effort,
                                                     const std::function<bool()>& stop = {});

/// @return false where no schedule is without lateness, or there is none up to the horizon.
[[nodiscard]] bool may_be_in_time(const Project& project);

}  // namespace coatwright
