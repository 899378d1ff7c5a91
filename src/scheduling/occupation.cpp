#include "scheduling/occupation.h"

namespace coatwright {
namespace {

Endpoint after_start(int activity, Tick offset) {
  return {activity, Lag{offset}};
}

}  // namespace

std::vector<Occupation> occupations_of(const Project& project, int resource) {
  std::vector<Occupation> all;
  for (std::size_t i = 0; i < project.activities.size(); ++i) {
    const int activity = static_cast<int>(i);
    for (const Demand& demand : project.activities[i].demands) {
      if (demand.resource == resource && demand.amount > 0 && demand.to > demand.from) {
        all.push_back(
            {demand.amount, after_start(activity, demand.from), after_start(activity, demand.to)});
      }
    }
  }
  for (const Hold& hold : project.holds) {
    if (hold.resource == resource && hold.amount > 0) {
      const Endpoint end =
          hold.to ? after_start(*hold.to, hold.to_offset) : Endpoint{hold.from, hold.until};
      all.push_back({hold.amount, after_start(hold.from, hold.from_offset), end});
    }
  }
  return all;
}

Occupation occupation_of(const Stretch& stretch) {
  return {
      1, after_start(stretch.activity, stretch.from), Endpoint{stretch.activity, stretch.until}};
}

}  // namespace coatwright
