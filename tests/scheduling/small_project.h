#pragma once

#include <algorithm>
#include <map>
#include <memory>
#include <optional>

#include "scheduling/project.h"
#include "scheduling/random.h"

/// Tiny projects with all that a project may ask for, a check of schedules tick by tick, and the
/// best schedule found by trying all of them.
namespace coatwright::small {

/// Ready after so many ticks of a clock that stands still now and then.
class StandingClock : public LagFunction {
 public:
  StandingClock(Tick first, Tick ticks) : first_(first), ticks_(ticks) {}
  [[nodiscard]] Tick at(Tick start) const override {
    Tick now = start;
    for (Tick left = ticks_; left > 0; ++now) {
      left -= (now + first_) % 5 == 0 ? 0 : 1;
    }
    return now;
  }

 private:
  Tick first_;
  Tick ticks_;
};

inline Lag random_lag(Random& random, Tick least, Tick range) {
  const Tick ticks = least + random.below(range);
  if (random.below(3) == 0) {
    return {0, std::make_shared<StandingClock>(random.below(5), std::max<Tick>(ticks, 0))};
  }
  return {ticks};
}

inline StartSet random_starts(Random& random, Tick horizon) {
  if (random.below(2) == 0) {
    return {{{0, horizon}}};
  }
  const Tick gap = 1 + random.below(horizon - 2);
  const Tick next = std::min(horizon, gap + 1 + random.below(4));
  return {{{0, gap - 1}, {next, horizon}}};
}

inline Project random_project(std::uint64_t seed) {
  Random random(seed);
  Project project;
  project.horizon = 9 + random.below(5);
  for (int i = 0; i < 2; ++i) {
    project.start_sets.push_back(random_starts(random, project.horizon));
    project.resources.push_back({"resource", {{0, 1 + random.below(2)}}});
    if (random.below(2) == 0) {
      project.resources.back().capacity.push_back({4 + random.below(6), random.below(3)});
    }
  }
  const int count = 3 + random.below(3);
  for (int i = 0; i < count; ++i) {
    const Tick length = random.below(4);
    project.activities.push_back({"work", length, {}, random.below(2)});
    if (length > 0) {
      project.activities.back().demands.push_back({random.below(2), 1, 0, length});
    }
    if (random.below(4) == 0) {
      const Tick from = random.below(3);
      project.activities.back().demands.push_back({random.below(2), 1, from, from + 2});
    }
  }
  for (int i = 0; i + 1 < count; ++i) {
    const int next = i + 1 + random.below(count - i - 1);
    const Lag lag = random_lag(random, 0, 5);
    project.min_lags.push_back({i, next, lag});
    if (random.below(3) == 0) {
      project.max_lags.push_back({i, next, random_lag(random, 2, 6)});
    }
    if (random.below(3) == 0) {
      project.holds.push_back(
          {random.below(2), 1, i, project.activities[i].length, next, random.below(2), Lag{}});
    }
  }
  if (random.below(4) == 0) {
    project.holds.push_back({random.below(2), 1, 0, 1, std::nullopt, 0, random_lag(random, 1, 4)});
  }
  if (random.below(3) == 0) {
    project.exclusions.push_back(
        {"apart", {{0, 0, random_lag(random, 1, 3)}}, {{count - 1, 0, random_lag(random, 1, 3)}}});
  }
  for (int i = 0; i < 2; ++i) {
    project.jobs.push_back({"job", {i, i + 1}, 2 + random.below(9), 1 + random.below(3)});
  }
  return project;
}

inline bool keeps_resources(const Project& project, const std::vector<Tick>& starts) {
  std::map<std::pair<int, Tick>, int> taken;
  const auto take = [&](int resource, int amount, Tick begin, Tick end) {
    for (Tick tick = begin; tick < end; ++tick) {
      taken[{resource, tick}] += amount;
    }
  };
  for (std::size_t i = 0; i < starts.size(); ++i) {
    for (const Demand& demand : project.activities[i].demands) {
      take(demand.resource, demand.amount, starts[i] + demand.from, starts[i] + demand.to);
    }
  }
  for (const Hold& hold : project.holds) {
    const Tick end = hold.to ? starts[*hold.to] + hold.to_offset : hold.until.at(starts[hold.from]);
    take(hold.resource, hold.amount, starts[hold.from] + hold.from_offset, end);
  }
  return std::all_of(taken.begin(), taken.end(), [&](const auto& one) {
    int capacity = 0;
    for (const CapacityStep& step : project.resources[one.first.first].capacity) {
      capacity = step.at <= one.first.second ? step.capacity : capacity;
    }
    return one.second <= capacity;
  });
}

inline bool keeps_exclusions(const Project& project, const std::vector<Tick>& starts) {
  for (const Exclusion& exclusion : project.exclusions) {
    for (const Stretch& one : exclusion.one_side) {
      for (const Stretch& other : exclusion.other_side) {
        const Tick begin =
            std::max(starts[one.activity] + one.from, starts[other.activity] + other.from);
        const Tick end =
            std::min(one.until.at(starts[one.activity]), other.until.at(starts[other.activity]));
        if (begin < end) {
          return false;
        }
      }
    }
  }
  return true;
}

inline bool may_start(const Project& project, int activity, Tick start) {
  const auto& spans = project.start_sets[project.activities[activity].starts].spans;
  return start % project.grain == 0 && start >= 0 && start <= project.horizon &&
         std::any_of(spans.begin(), spans.end(), [&](const StartSpan& span) {
           return span.first <= start && start <= span.last;
         });
}

/// Among the first `count` activities.
inline bool keeps_lags(const Project& project, const std::vector<Tick>& starts, int count) {
  for (const MinLag& min : project.min_lags) {
    if (std::max(min.from, min.to) < count && starts[min.to] < min.lag.at(starts[min.from])) {
      return false;
    }
  }
  for (const MaxLag& max : project.max_lags) {
    if (std::max(max.from, max.to) < count && starts[max.to] > max.lag.at(starts[max.from])) {
      return false;
    }
  }
  return true;
}

/// Whether a schedule keeps everything.
inline bool keeps_all(const Project& project, const Schedule& schedule) {
  const int count = static_cast<int>(project.activities.size());
  for (int i = 0; i < count; ++i) {
    if (!may_start(project, i, schedule.starts[i])) {
      return false;
    }
  }
  return keeps_lags(project, schedule.starts, count) && keeps_resources(project, schedule.starts) &&
         keeps_exclusions(project, schedule.starts);
}

struct Best {
  std::optional<ProjectCost> cost;
  Tick earliest_end = kNeverTick;  ///< However late jobs may be.
};

inline void try_all(const Project& project, Schedule& schedule, int next, Best& best) {
  if (next == static_cast<int>(project.activities.size())) {
    if (keeps_all(project, schedule)) {
      const ProjectCost cost = cost_of(project, schedule);
      best.cost = best.cost ? std::min(*best.cost, cost) : cost;
      best.earliest_end = std::min(best.earliest_end, cost.end);
    }
    return;
  }
  for (Tick start = 0; start <= project.horizon; ++start) {
    schedule.starts[next] = start;
    if (may_start(project, next, start) && keeps_lags(project, schedule.starts, next + 1)) {
      try_all(project, schedule, next + 1, best);
    }
  }
}

inline Best best_of_all(const Project& project) {
  Schedule schedule{std::vector<Tick>(project.activities.size(), 0)};
  Best best;
  try_all(project, schedule, 0, best);
  return best;
}

}  // namespace coatwright::small
