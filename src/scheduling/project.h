#pragma once

#include <cstdint>
#include <limits>
#include <memory>
#include <optional>
#include <string>
#include <vector>

/// A resource-constrained project with minimum and maximum time lags and calendars (RCPSP/max-cal
/// in the words of operations research). It knows nothing of finishing: plan/ writes a shop's work
/// down as one, and benchmarks/ reads published instances into it.
namespace coatwright {

/// A moment or a span in the project's unit, from the project's start. What a tick is, the caller
/// knows: a minute for a shop.
using Tick = std::int32_t;

/// Later than any moment of a project.
inline constexpr Tick kNeverTick = std::numeric_limits<Tick>::max() / 4;

/// From the start of one activity to a moment that follows from it, such as the earliest start of
/// the next. Never decreases: who starts later is never ready earlier. It may be asked from two
/// threads at once.
class LagFunction {
 public:
  virtual ~LagFunction() = default;
  /// @param start of the activity that it counts from, 0 .. the horizon.
  /// @return the moment; kNeverTick where it is never reached.
  [[nodiscard]] virtual Tick at(Tick start) const = 0;
};

/// A lag that is the same whenever it begins, or one that depends on when.
struct Lag {
  Tick constant = 0;
  std::shared_ptr<const LagFunction> function = nullptr;  ///< Where set, `constant` is unused.

  [[nodiscard]] Tick at(Tick start) const {
    return function ? function->at(start) : start + constant;
  }
};

/// start(to) >= lag(start(from)).
struct MinLag {
  int from = 0;
  int to = 0;
  Lag lag;
};

/// start(to) <= lag(start(from)).
struct MaxLag {
  int from = 0;
  int to = 0;
  Lag lag;
};

/// A share of a resource from start + from up to, and without, start + to.
struct Demand {
  int resource = 0;
  int amount = 1;
  Tick from = 0;
  Tick to = 0;
};

/// The first and the last start of a stretch of starts that are allowed.
struct StartSpan {
  Tick first = 0;
  Tick last = 0;
  bool operator==(const StartSpan&) const = default;
};

/// Starts that are allowed: multiples of the project's grain inside one of the spans.
struct StartSet {
  std::vector<StartSpan> spans;  ///< In order, disjoint; their ends are multiples of the grain.
};

/// Work that is not interrupted.
struct Activity {
  std::string name;  ///< For reasons and pictures.
  Tick length = 0;
  std::vector<Demand> demands;
  int starts = 0;  ///< Index into Project::start_sets.
};

/// What stays taken between two activities, such as a place on the drying rack: from
/// start(from) + from_offset up to start(to) + to_offset, or up to `until` of start(from).
struct Hold {
  int resource = 0;
  int amount = 1;
  int from = 0;
  Tick from_offset = 0;
  std::optional<int> to;
  Tick to_offset = 0;
  Lag until;  ///< Used where `to` is not set.
};

/// A stretch of time that hangs on an activity: from start + from up to `until` of the start, which
/// lies after it.
struct Stretch {
  int activity = 0;
  Tick from = 0;
  Lag until;  ///< constant: start + constant.
};

/// No stretch of one side may overlap one of the other; stretches of the same side may. Dust of
/// sanding against wet films is one.
struct Exclusion {
  std::string name;
  std::vector<Stretch> one_side;
  std::vector<Stretch> other_side;
};

/// From `at` on, so much of a resource is there.
struct CapacityStep {
  Tick at = 0;
  int capacity = 0;
};

/// The greatest capacity at any time; 0 without any.
[[nodiscard]] int most_of(const std::vector<CapacityStep>& capacity);

struct Resource {
  std::string name;
  std::vector<CapacityStep> capacity;  ///< In order, the first at 0.
};

/// What is delivered together: late from `due` on, counted in ticks times weight.
struct Job {
  std::string name;
  std::vector<int> activities;  ///< It ends with the last of them.
  Tick due = kNeverTick;
  int weight = 1;
};

struct Project {
  Tick grain = 1;    ///< Starts are multiples of it.
  Tick horizon = 0;  ///< No start is later.
  std::vector<Activity> activities;
  std::vector<StartSet> start_sets;
  std::vector<Resource> resources;
  std::vector<MinLag> min_lags;
  std::vector<MaxLag> max_lags;
  std::vector<Hold> holds;
  std::vector<Exclusion> exclusions;
  std::vector<Job> jobs;  ///< The project ends with the last of all activities, in a job or not.
};

/// A start for each activity.
struct StartTimes {
  std::vector<Tick> starts;
};

/// What is made small, in this order.
struct ProjectCost {
  std::int64_t lateness = 0;     ///< Ticks late times weight, over the jobs.
  Tick end = 0;                  ///< Of the last activity.
  std::int64_t sum_of_ends = 0;  ///< Of the jobs, times weight: what need not wait does not.
  auto operator<=>(const ProjectCost&) const = default;
};

[[nodiscard]] ProjectCost cost_of(const Project& project, const StartTimes& schedule);

}  // namespace coatwright
