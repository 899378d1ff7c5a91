#include "scheduling/project.h"

#include <algorithm>

namespace coatwright {

int most_of(const std::vector<CapacityStep>& capacity) {
  int most = 0;
  for (const CapacityStep& step : capacity) {
    most = std::max(most, step.capacity);
  }
  return most;
}

ProjectCost cost_of(const Project& project, const StartTimes& schedule) {
  const auto end_of = [&](int activity) {
    const auto place = static_cast<std::size_t>(activity);
    return schedule.starts[place] + project.activities[place].length;
  };
  ProjectCost cost;
  for (std::size_t i = 0; i < project.activities.size(); ++i) {
    cost.end = std::max(cost.end, end_of(static_cast<int>(i)));
  }
  for (const Job& job : project.jobs) {
    Tick end = 0;
    for (const int activity : job.activities) {
      end = std::max(end, end_of(activity));
    }
    cost.lateness += static_cast<std::int64_t>(job.weight) * std::max(0, end - job.due);
    cost.sum_of_ends += static_cast<std::int64_t>(job.weight) * end;
  }
  return cost;
}

}  // namespace coatwright
