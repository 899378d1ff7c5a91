#include "scheduling/project_bounds.h"

#include "scheduling/lower_bounds.h"

namespace coatwright {

std::optional<ProjectBounds> bounds_of(const Project& project,
                                       Tick known,
                                       const std::function<bool()>& stop) {
  const LagNetwork network(project);
  Windows windows(network);
  if (!windows.propagate()) {
    return std::nullopt;
  }
  const LowerBounds bounds(project, network, windows);
  return ProjectBounds{bounds.lateness_bound(), bounds.end_bound(known, stop)};
}

}  // namespace coatwright
