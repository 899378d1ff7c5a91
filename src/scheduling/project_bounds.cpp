#include "scheduling/project_bounds.h"

#include <algorithm>

#include "scheduling/lower_bounds.h"
#include "scheduling/priced_bounds.h"

namespace coatwright {

std::optional<ProjectBounds> bounds_of(const Project& project,
                                       const ProjectBounds& known,
                                       std::int64_t effort,
                                       const std::function<bool()>& stop) {
  const LagNetwork network(project);
  Windows windows(network);
  if (!windows.propagate()) {
    return std::nullopt;
  }
  const LowerBounds energy(project, network, windows);
  ProjectBounds bounds{std::min(known.lateness, energy.lateness_bound()),
                       energy.end_bound(known.end, stop)};
  if (bounds.end < known.end) {
    EndPricing(project, network, windows, energy).run(effort / 2, known.end, stop, bounds.end);
  }
  if (bounds.lateness < known.lateness) {
    LatenessPricing(project, network, windows, energy)
        .run(effort / 2, known.lateness, stop, bounds.lateness);
  }
  return bounds;
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
