#pragma once

#include <algorithm>
#include <cstdint>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "scheduling/project.h"

/// Tiny projects with all that a project may have, small enough to try every schedule.
namespace own {

using namespace coatwright;  // NOLINT: the data types of project.h, in a header of tests alone

/// A generator of its own, so that a seed means the same project on every machine. Source:
/// SplitMix64 [steele2014].
class Random {
 public:
  explicit Random(std::uint64_t seed) : state_(seed * 0x9E3779B97F4A7C15U + 1) {}

  /// @return one of low .. high.
  int between(int low, int high) {
    return low + static_cast<int>(next() % static_cast<std::uint64_t>(high - low + 1));
  }
  bool chance(int percent) { return between(1, 100) <= percent; }

 private:
  std::uint64_t next() {
    std::uint64_t word = (state_ += 0x9E3779B97F4A7C15U);
    word = (word ^ (word >> 30U)) * 0xBF58476D1CE4E5B9U;
    word = (word ^ (word >> 27U)) * 0x94D049BB133111EBU;
    return word ^ (word >> 31U);
  }
  std::uint64_t state_;
};

/// A lag that is written down for every tick; asked outside of the horizon it throws.
class TableLag : public LagFunction {
 public:
  explicit TableLag(std::vector<Tick> moments) : moments_(std::move(moments)) {}
  [[nodiscard]] Tick at(Tick start) const override {
    return moments_.at(static_cast<std::size_t>(start));
  }

 private:
  std::vector<Tick> moments_;
};

/// Draws one project; the same seed draws the same.
class ProjectDrawing {
 public:
  explicit ProjectDrawing(std::uint64_t seed) : random_(seed) {}

  Project draw() {
    const int count = random_.between(2, 7);
    project_.grain = random_.chance(25) ? 5 : 1;
    // The more activities, the fewer slots: each schedule is to be tried.
    slots_ = count <= 3 ? random_.between(12, 40) : random_.between(10, 36 - 3 * count);
    project_.horizon = slots_ * project_.grain;
    add_start_sets();
    add_resources();
    for (int i = 0; i < count; ++i) {
      add_activity(i);
    }
    add_lags();
    add_holds();
    add_exclusions();
    add_jobs();
    return project_;
  }

 private:
  int count() const { return static_cast<int>(project_.activities.size()); }
  /// A span of time of so many slots, now and then off the grain.
  Tick span(int low, int high) {
    const Tick ticks = random_.between(low, high) * project_.grain;
    return random_.chance(20) ? ticks + random_.between(0, project_.grain - 1) : ticks;
  }
  int any_activity() { return random_.between(0, count() - 1); }
  int any_resource() { return random_.between(0, static_cast<int>(project_.resources.size()) - 1); }

  /// The first holds the whole horizon; the others are hours with closed times between.
  void add_start_sets() {
    project_.start_sets.push_back({{{0, project_.horizon}}});
    const int sets = random_.between(1, 3);
    for (int i = 0; i < sets; ++i) {
      StartSet set;
      for (int slot = random_.between(0, 4); slot <= slots_;) {
        const int last = std::min(slots_, slot + random_.between(0, 6));
        set.spans.push_back({slot * project_.grain, last * project_.grain});
        slot = last + random_.between(2, 7);
      }
      project_.start_sets.push_back(set);
    }
  }

  void add_resources() {
    const int resources = random_.between(1, 3);
    for (int i = 0; i < resources; ++i) {
      Resource resource{"resource " + std::to_string(i), {{0, random_.between(1, 3)}}};
      if (random_.chance(40)) {
        const Tick falls = span(2, slots_ / 2);
        resource.capacity.push_back({falls, random_.between(0, 3)});
        resource.capacity.push_back({falls + 1 + span(1, 6), random_.between(1, 3)});
      }
      project_.resources.push_back(resource);
    }
  }

  void add_activity(int place) {
    Activity activity;
    activity.name = "work " + std::to_string(place);
    activity.length = span(0, 5);
    activity.starts = random_.between(0, static_cast<int>(project_.start_sets.size()) - 1);
    if (random_.chance(85)) {
      activity.demands.push_back({any_resource(), random_.chance(75) ? 1 : 2, 0, activity.length});
    }
    if (random_.chance(30)) {  // only a part of its time, or beyond it
      const Tick from = span(0, 2);
      activity.demands.push_back({any_resource(), 1, from, from + span(0, 4)});
    }
    project_.activities.push_back(activity);
  }

  /// @param low,high slots from the start, as it is or by a table that changes over the day.
  Lag lag(int low, int high) {
    if (random_.chance(50)) {
      return Lag{span(low, high)};
    }
    std::vector<Tick> moments;
    Tick latest = 0;
    const bool ends = random_.chance(10);
    for (Tick start = 0; start <= project_.horizon; ++start) {
      latest = std::max(latest, start + span(low, high));
      if (ends && start > 3 * project_.horizon / 4) {
        latest = kNeverTick;
      }
      moments.push_back(latest);
    }
    return Lag{0, std::make_shared<TableLag>(moments)};
  }

  void add_lags() {
    for (int i = 1; i < count(); ++i) {
      if (random_.chance(60)) {
        const int from = random_.between(0, i - 1);
        const int shortest = random_.between(0, 4);
        project_.min_lags.push_back({from, i, lag(shortest, shortest + 3)});
        if (random_.chance(50)) {
          project_.max_lags.push_back({from, i, lag(shortest, shortest + 7)});
        }
      }
    }
    if (count() > 2 && random_.chance(25)) {  // a lag back, as of two that must lie together
      project_.min_lags.push_back({count() - 1, 0, Lag{-span(2, slots_ / 2)}});
    }
  }

  void add_holds() {
    const int holds = random_.between(0, 2);
    for (int i = 0; i < holds; ++i) {
      Hold hold;
      hold.resource = any_resource();
      hold.from = any_activity();
      hold.from_offset = project_.activities[static_cast<std::size_t>(hold.from)].length;
      const int to = any_activity();
      if (random_.chance(60) && to != hold.from) {
        hold.to = to;
        hold.to_offset = random_.between(-1, 2);
      } else {
        hold.until = lag(6, 9);
      }
      project_.holds.push_back(hold);
    }
  }

  /// @return a stretch whose end lies after its beginning, as project.h asks.
  Stretch stretch(int activity) {
    const Tick from = span(0, 2);
    return {activity, from, lag(4, 6)};
  }

  void add_exclusions() {
    if (!random_.chance(30)) {
      return;
    }
    Exclusion exclusion;
    exclusion.name = "exclusion";
    for (int i = 0; i < count(); ++i) {
      const int side = random_.between(0, 3);
      if (side == 0) {
        exclusion.one_side.push_back(stretch(i));
      } else if (side == 1) {
        exclusion.other_side.push_back(stretch(i));
      }
    }
    project_.exclusions.push_back(exclusion);
  }

  void add_jobs() {
    const int jobs = random_.between(0, 3);
    for (int i = 0; i < jobs; ++i) {
      Job job;
      job.name = "job " + std::to_string(i);
      for (int activity = 0; activity < count(); ++activity) {
        if (random_.chance(40)) {
          job.activities.push_back(activity);
        }
      }
      job.due = random_.chance(80) ? span(2, slots_) : kNeverTick;
      job.weight = random_.between(1, 3);
      if (!job.activities.empty()) {
        project_.jobs.push_back(job);
      }
    }
  }

  Random random_;
  Project project_;
  int slots_ = 0;
};

inline Project random_project(std::uint64_t seed) {
  return ProjectDrawing(seed).draw();
}

}  // namespace own
