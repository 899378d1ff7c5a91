#pragma once

#include <algorithm>
#include <cstdint>
#include <functional>
#include <limits>
#include <optional>
#include <vector>

#include "own_schedule_checker.h"
#include "scheduling/project.h"

/// The best of all schedules of a tiny project, by trying start after start and taking back what
/// breaks a rule between activities that are placed. Nothing is inferred.
namespace own {

/// What is made small.
enum class Aim { kLatenessThenEnd, kEnd };

class BruteForce {
 public:
  /// What is made small among schedules that are equal by the aim.
  using Further = std::function<int(const StartTimes&)>;

  /// @param fixed per activity its start, where it may not move; empty: all are free.
  BruteForce(const Project& project,
             Aim aim,
             std::vector<std::optional<Tick>> fixed = {},
             Further further = {})
      : project_(project), aim_(aim), fixed_(std::move(fixed)), further_(std::move(further)) {
    schedule_.starts.resize(project.activities.size());
    for (const auto& resource : project.resources) {
      free_.push_back(free_of(resource));
    }
    for (std::size_t i = 0; i < project.activities.size(); ++i) {
      starts_.push_back(starts_of(i));
    }
  }

  /// @return nothing when no schedule keeps the rules.
  std::optional<StartTimes> best() {
    place(0);
    return best_;
  }
  [[nodiscard]] std::int64_t tried() const { return tried_; }

 private:
  static constexpr std::int64_t kNone = std::numeric_limits<std::int64_t>::max();

  /// What a resource has at each tick; beyond its table it has what the last step says.
  std::vector<int> free_of(const Resource& resource) const {
    std::vector<int> free(static_cast<std::size_t>(project_.horizon) + 100, 0);
    for (std::size_t tick = 0; tick < free.size(); ++tick) {
      for (const auto& step : resource.capacity) {
        if (step.at <= static_cast<Tick>(tick)) {
          free[tick] = step.capacity;
        }
      }
    }
    return free;
  }

  std::vector<Tick> starts_of(std::size_t activity) const {
    std::vector<Tick> starts;
    const auto set = static_cast<std::size_t>(project_.activities[activity].starts);
    for (const auto& span : project_.start_sets[set].spans) {
      for (Tick start = span.first; start <= span.last; start += project_.grain) {
        if (fixed_.empty() || !fixed_[activity] || *fixed_[activity] == start) {
          starts.push_back(start);
        }
      }
    }
    return starts;
  }

  Tick start(int activity) const { return schedule_.starts[static_cast<std::size_t>(activity)]; }

  void place(std::size_t activity) {
    if (activity == starts_.size()) {
      keep();
      return;
    }
    for (const Tick start : starts_[activity]) {
      schedule_.starts[activity] = start;
      placed_ = static_cast<int>(activity) + 1;
      ++tried_;
      const std::size_t taken_before = taken_.size();
      if (can_beat() && keeps_lags() && keeps_exclusions() && take_all()) {
        place(activity + 1);
      }
      give_back(taken_before);
    }
    placed_ = static_cast<int>(activity);
  }

  void keep() {
    const Cost cost = cost_so_far();
    const int further = further_ ? further_(schedule_) : 0;
    if (cost < least_ || further < least_further_) {
      best_ = schedule_;
      least_ = cost;
      least_further_ = further;
    }
  }

  /// Lateness and end of what is placed: more work can only add to them.
  Cost cost_so_far() const {
    Cost cost;
    for (int i = 0; i < placed_; ++i) {
      cost.end = std::max(cost.end, end(i));
    }
    for (const auto& job : project_.jobs) {
      Tick late = 0;
      for (const int activity : job.activities) {
        late = activity < placed_ ? std::max(late, end(activity) - job.due) : late;
      }
      cost.lateness += std::int64_t{late} * job.weight;
    }
    if (aim_ == Aim::kEnd) {
      cost.lateness = 0;
    }
    return cost;
  }
  Tick end(int activity) const {
    return start(activity) + project_.activities[static_cast<std::size_t>(activity)].length;
  }
  bool can_beat() const {
    const Cost cost = cost_so_far();
    return least_further_ > 0 && further_ ? !(least_ < cost) : cost < least_;
  }

  bool is_placed(int activity) const { return activity < placed_; }
  bool is_new(int one, int other) const { return std::max(one, other) == placed_ - 1; }

  bool keeps_lags() const {
    const auto is_kept = [this](const auto& rule, bool least) {
      if (!is_new(rule.from, rule.to)) {
        return true;
      }
      const Tick moment = moment_after(rule.lag, start(rule.from));
      return least ? start(rule.to) >= moment : start(rule.to) <= moment;
    };
    return std::all_of(project_.min_lags.begin(),
                       project_.min_lags.end(),
                       [&](const auto& rule) { return is_kept(rule, true); }) &&
           std::all_of(project_.max_lags.begin(), project_.max_lags.end(), [&](const auto& rule) {
             return is_kept(rule, false);
           });
  }

  bool keeps_exclusions() const {
    for (const auto& exclusion : project_.exclusions) {
      for (const auto& one : exclusion.one_side) {
        for (const auto& other : exclusion.other_side) {
          if (is_new(one.activity, other.activity) && overlap(one, other)) {
            return false;
          }
        }
      }
    }
    return true;
  }
  bool overlap(const coatwright::Stretch& one, const coatwright::Stretch& other) const {
    const auto ends_before = [this](const auto& first, const auto& second) {
      return moment_after(first.until, start(first.activity)) <=
             start(second.activity) + second.from;
    };
    return !ends_before(one, other) && !ends_before(other, one);
  }

  /// Takes what the activity placed last needs. @return false when something is short; what was
  /// taken until then is given back by give_back().
  bool take_all() {
    const int activity = placed_ - 1;
    for (const auto& demand : project_.activities[static_cast<std::size_t>(activity)].demands) {
      const Tick begin = start(activity);
      if (!take(demand.resource, demand.amount, begin + demand.from, begin + demand.to)) {
        return false;
      }
    }
    for (const auto& hold : project_.holds) {
      if (is_new(hold.from, hold.to.value_or(hold.from))) {
        const Tick end =
            hold.to ? start(*hold.to) + hold.to_offset : moment_after(hold.until, start(hold.from));
        if (!take(hold.resource, hold.amount, start(hold.from) + hold.from_offset, end)) {
          return false;
        }
      }
    }
    return true;
  }

  struct Taken {
    int resource, amount;
    Tick tick;
  };
  bool take(int resource, int amount, Tick begin, Tick end) {
    std::vector<int>& free = free_[static_cast<std::size_t>(resource)];
    end = std::min(end, static_cast<Tick>(free.size()));
    for (Tick tick = begin; tick < end; ++tick) {
      free[static_cast<std::size_t>(tick)] -= amount;
      taken_.push_back({resource, amount, tick});
      if (free[static_cast<std::size_t>(tick)] < 0) {
        return false;
      }
    }
    return true;
  }
  void give_back(std::size_t size) {
    for (; taken_.size() > size; taken_.pop_back()) {
      const Taken& last = taken_.back();
      free_[static_cast<std::size_t>(last.resource)][static_cast<std::size_t>(last.tick)] +=
          last.amount;
    }
  }

  const Project& project_;
  Aim aim_;
  std::vector<std::optional<Tick>> fixed_;
  Further further_;
  std::vector<std::vector<Tick>> starts_;  ///< Per activity.
  std::vector<std::vector<int>> free_;     ///< Per resource and tick.
  std::vector<Taken> taken_;
  StartTimes schedule_;
  int placed_ = 0;
  std::optional<StartTimes> best_;
  Cost least_{kNone, 0};
  int least_further_ = std::numeric_limits<int>::max();
  std::int64_t tried_ = 0;
};

inline std::optional<StartTimes> best_by_brute_force(const Project& project,
                                                     Aim aim,
                                                     std::vector<std::optional<Tick>> fixed = {}) {
  return BruteForce(project, aim, std::move(fixed)).best();
}

}  // namespace own
