#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "scheduling/project.h"

/// A second reading of project.h, for tests and benchmarks: it shares the data types with the room
/// that it checks, and no code.
namespace own {

using coatwright::Lag;
using coatwright::Project;
using coatwright::Resource;
using coatwright::StartTimes;
using coatwright::Tick;

struct Cost {
  std::int64_t lateness = 0;
  Tick end = 0;
  auto operator<=>(const Cost&) const = default;
};

/// A stretch of time from `begin` up to, and without, `end`; empty where it ends before it begins.
struct Span {
  Tick begin = 0;
  Tick end = 0;
  int amount = 1;
  std::string owner;
};

inline Tick moment_after(const Lag& lag, Tick start) {
  return lag.function != nullptr ? lag.function->at(start) : start + lag.constant;
}

/// @return lateness of the jobs, ticks times weight, and the end of the last activity.
inline Cost cost_by_hand(const Project& project, const StartTimes& schedule) {
  Cost cost;
  std::vector<Tick> ends;
  for (std::size_t i = 0; i < project.activities.size(); ++i) {
    ends.push_back(schedule.starts.at(i) + project.activities[i].length);
    cost.end = std::max(cost.end, ends.back());
  }
  for (const auto& job : project.jobs) {
    Tick last = 0;
    for (const int activity : job.activities) {
      last = std::max(last, ends.at(static_cast<std::size_t>(activity)));
    }
    if (last > job.due) {
      cost.lateness += std::int64_t{last - job.due} * job.weight;
    }
  }
  return cost;
}

/// Holds one schedule against one project, rule by rule, each by its plainest reading.
class ScheduleChecker {
 public:
  ScheduleChecker(const Project& project, const StartTimes& schedule)
      : project_(project), schedule_(schedule) {}

  /// @return a sentence for each rule that is broken; empty when none is.
  std::vector<std::string> broken_rules() {
    if (schedule_.starts.size() != project_.activities.size()) {
      return {"The schedule has " + std::to_string(schedule_.starts.size()) + " starts for " +
              std::to_string(project_.activities.size()) + " activities."};
    }
    check_starts();
    if (broken_.empty()) {  // a lag is not defined for a start outside of the horizon
      check_lags();
      check_resources();
      check_exclusions();
    }
    return broken_;
  }

 private:
  void say(const std::string& sentence) { broken_.push_back(sentence); }
  Tick start(int activity) const { return schedule_.starts[static_cast<std::size_t>(activity)]; }
  std::string name(int activity) const {
    return project_.activities[static_cast<std::size_t>(activity)].name + " (" +
           std::to_string(activity) + ")";
  }
  static std::string at(Tick tick) { return " at " + std::to_string(tick); }

  void check_starts() {
    for (std::size_t i = 0; i < project_.activities.size(); ++i) {
      const int activity = static_cast<int>(i);
      const Tick begin = start(activity);
      if (begin < 0 || begin > project_.horizon) {
        say(name(activity) + " starts outside of the horizon" + at(begin) + ".");
        continue;
      }
      if (begin % project_.grain != 0) {
        say(name(activity) + " starts off the grain" + at(begin) + ".");
      }
      if (!is_in_start_set(project_.activities[i].starts, begin)) {
        say(name(activity) + " starts outside of its start set" + at(begin) + ".");
      }
    }
  }

  bool is_in_start_set(int set, Tick begin) const {
    const auto& spans = project_.start_sets.at(static_cast<std::size_t>(set)).spans;
    return std::any_of(spans.begin(), spans.end(), [begin](const auto& span) {
      return span.first <= begin && begin <= span.last;
    });
  }

  void check_lags() {
    for (const auto& rule : project_.min_lags) {
      if (start(rule.to) < moment_after(rule.lag, start(rule.from))) {
        say(name(rule.to) + " starts too early after " + name(rule.from) + at(start(rule.to)) +
            ".");
      }
    }
    for (const auto& rule : project_.max_lags) {
      if (start(rule.to) > moment_after(rule.lag, start(rule.from))) {
        say(name(rule.to) + " starts too late after " + name(rule.from) + at(start(rule.to)) + ".");
      }
    }
  }

  void check_resources() {
    for (std::size_t i = 0; i < project_.resources.size(); ++i) {
      check_resource(project_.resources[i], taken_of(static_cast<int>(i)));
    }
  }

  std::vector<Span> taken_of(int resource) const {
    std::vector<Span> taken;
    for (std::size_t i = 0; i < project_.activities.size(); ++i) {
      for (const auto& demand : project_.activities[i].demands) {
        if (demand.resource == resource) {
          const Tick begin = schedule_.starts[i];
          taken.push_back(
              {begin + demand.from, begin + demand.to, demand.amount, name(static_cast<int>(i))});
        }
      }
    }
    for (const auto& hold : project_.holds) {
      if (hold.resource == resource) {
        const Tick end =
            hold.to ? start(*hold.to) + hold.to_offset : moment_after(hold.until, start(hold.from));
        taken.push_back({start(hold.from) + hold.from_offset,
                         end,
                         hold.amount,
                         "the hold of " + name(hold.from)});
      }
    }
    return taken;
  }

  /// What is taken can only become too much where something begins or the capacity falls.
  void check_resource(const Resource& resource, const std::vector<Span>& taken) {
    std::vector<Tick> breakpoints;
    for (const Span& span : taken) {
      breakpoints.push_back(span.begin);
    }
    for (const auto& step : resource.capacity) {
      breakpoints.push_back(step.at);
    }
    std::sort(breakpoints.begin(), breakpoints.end());
    breakpoints.erase(std::unique(breakpoints.begin(), breakpoints.end()), breakpoints.end());
    for (const Tick breakpoint : breakpoints) {
      check_capacity(resource, taken, breakpoint);
    }
  }

  void check_capacity(const Resource& resource, const std::vector<Span>& taken, Tick moment) {
    int sum = 0;
    std::string owners;
    for (const Span& span : taken) {
      if (span.begin <= moment && moment < span.end) {
        sum += span.amount;
        owners += (owners.empty() ? "" : ", ") + span.owner;
      }
    }
    int capacity = 0;
    for (const auto& step : resource.capacity) {
      capacity = step.at <= moment ? step.capacity : capacity;
    }
    if (sum > capacity && sum > 0) {
      say(resource.name + " has " + std::to_string(capacity) + at(moment) + ", and " +
          std::to_string(sum) + " is taken by " + owners + ".");
    }
  }

  void check_exclusions() {
    for (const auto& exclusion : project_.exclusions) {
      for (const auto& one : exclusion.one_side) {
        for (const auto& other : exclusion.other_side) {
          if (overlap(span_of(one), span_of(other))) {
            say(exclusion.name + ": " + name(one.activity) + " overlaps " + name(other.activity) +
                ".");
          }
        }
      }
    }
  }

  Span span_of(const coatwright::Stretch& stretch) const {
    const Tick begin = start(stretch.activity);
    return {begin + stretch.from, moment_after(stretch.until, begin), 1, {}};
  }

  static bool overlap(const Span& a, const Span& b) {
    const Tick begin = std::max(a.begin, b.begin);
    return begin < std::min(a.end, b.end);
  }

  const Project& project_;
  const StartTimes& schedule_;
  std::vector<std::string> broken_;
};

inline std::vector<std::string> broken_rules(const Project& project, const StartTimes& schedule) {
  return ScheduleChecker(project, schedule).broken_rules();
}

}  // namespace own
