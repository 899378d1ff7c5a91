#pragma once

#include <algorithm>
#include <cstdint>
#include <optional>
#include <vector>

#include "own_dusty_projects.h"

/// Drawn shops: work of a few people in opening hours, one piece or more beside another.
namespace own {

inline constexpr Tick kDay = 12;
inline constexpr Tick kOpen = 6;

/// Days of 6 of 12 ticks.
inline std::vector<CapacityStep> hours(int people, Tick horizon) {
  std::vector<CapacityStep> steps;
  for (Tick day = 0; day <= horizon; day += kDay) {
    steps.push_back({day, people});
    steps.push_back({day + kOpen, 0});
  }
  return steps;
}

inline constexpr int kPeople = 2;  ///< The resource of a dusty project.

/// Sanding and coats of two or three pieces, 3 to 9 sessions.
inline Project drawn_shop(int seed) {
  Project project = dusty_project(static_cast<std::uint64_t>(seed));
  project.resources[kPeople].capacity = hours(1 + seed % 3, project.horizon);
  return project;
}

/// Drawn shops side by side, which share their resources: room for moves that move others along.
class SideBySide {
 public:
  void add(const Project& one) {
    all_.grain = one.grain;
    all_.horizon = std::max(all_.horizon, one.horizon);
    const int first = static_cast<int>(all_.activities.size());
    const int first_set = static_cast<int>(all_.start_sets.size());
    all_.start_sets.insert(all_.start_sets.end(), one.start_sets.begin(), one.start_sets.end());
    for (std::size_t i = all_.resources.size(); i < one.resources.size(); ++i) {
      all_.resources.push_back(one.resources[i]);
    }
    for (Activity activity : one.activities) {
      activity.starts += first_set;
      all_.activities.push_back(activity);
    }
    add_moved(one.min_lags, all_.min_lags, first);
    add_moved(one.max_lags, all_.max_lags, first);
    for (Hold hold : one.holds) {
      hold.from += first;
      hold.to = hold.to ? std::optional(*hold.to + first) : std::nullopt;
      all_.holds.push_back(hold);
    }
    for (Job job : one.jobs) {
      for (int& activity : job.activities) {
        activity += first;
      }
      all_.jobs.push_back(job);
    }
  }
  [[nodiscard]] const Project& all() const { return all_; }

 private:
  template <class Lags>
  static void add_moved(const Lags& from, Lags& to, int by) {
    for (auto lag : from) {
      lag.from += by;
      lag.to += by;
      to.push_back(lag);
    }
  }

  Project all_;
};

/// What has begun lies on a rack until it goes on, and some of it may not wait for long.
inline Project with_racks(Project project, int seed) {
  Random random(static_cast<std::uint64_t>(seed));
  const int rack = static_cast<int>(project.resources.size());
  project.resources.push_back({"rack", {{0, random.between(2, 4)}}});
  for (const MinLag& lag : project.min_lags) {
    const Tick length = project.activities[static_cast<std::size_t>(lag.from)].length;
    project.holds.push_back({rack, 1, lag.from, length, lag.to, 0, Lag{}});
    if (random.chance(40)) {
      project.max_lags.push_back({lag.from, lag.to, Lag{random.between(7, 24)}});
    }
  }
  return project;
}

/// Up to six pieces, with recoat windows that close and racks that are full.
inline Project large_shop(int seed) {
  SideBySide shops;
  for (int i = 0; i < 2; ++i) {
    shops.add(with_racks(drawn_shop(2 * seed + i), 2 * seed + i));
  }
  return shops.all();
}

}  // namespace own
