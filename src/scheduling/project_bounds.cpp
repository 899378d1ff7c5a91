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

bool may_be_in_time(const Project& project) {
  const LagNetwork network(project);
  Windows windows(network);
  if (!windows.propagate()) {
    return false;
  }
  for (const Job& job : project.jobs) {  // the windows alone often tell, and cost less
    for (const int activity : job.activities) {
      const auto place = static_cast<std::size_t>(activity);
      if (job.weight > 0 && windows.low(activity) + project.activities[place].length > job.due) {
        return false;
      }
    }
  }
  return LowerBounds(project, network, windows).lateness_bound() == 0;
}

}  // namespace coatwright
