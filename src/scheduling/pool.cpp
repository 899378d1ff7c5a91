#include "scheduling/pool.h"

#include <algorithm>
#include <numeric>
#include <optional>

#include "scheduling/least_span.h"

namespace coatwright {
namespace {

constexpr int kMostCapacity = 10'000;  // of an exclusion's pool

int capacity_at(const std::vector<CapacityStep>& capacity, Tick moment) {
  int found = 0;
  for (const CapacityStep& step : capacity) {
    found = step.at <= moment ? step.capacity : found;
  }
  return found;
}

std::int64_t energy_of(const std::vector<Pool::Use>& uses) {
  std::int64_t energy = 0;
  for (const Pool::Use& use : uses) {
    energy += std::int64_t{use.amount} * (use.to - use.from);
  }
  return energy;
}

/// The resource that limits most how densely the stretches of a side can lie.
struct Side {
  int most = 0;  ///< Of that resource, at any time.
  const std::vector<CapacityStep>* capacity = nullptr;
  std::vector<Pool::Use> uses;

  [[nodiscard]] double time() const {
    return most > 0 ? static_cast<double>(energy_of(uses)) / most : 0.0;
  }
};

class SideDrawing {
 public:
  SideDrawing(const Project& project, const LagNetwork& network, const Windows& windows)
      : project_(project), network_(network), windows_(windows) {}

  [[nodiscard]] Side draw(const std::vector<Stretch>& stretches) const {
    std::vector<Tick> ends;
    for (const Stretch& stretch : stretches) {
      ends.push_back(least_end(stretch));
    }
    Side best;
    for (std::size_t i = 0; i < project_.resources.size(); ++i) {
      Side side = draw_with(static_cast<int>(i), stretches, ends);
      if (side.time() > best.time()) {
        best = std::move(side);
      }
    }
    return best;
  }

 private:
  /// How long after the start a stretch ends at least.
  [[nodiscard]] Tick least_end(const Stretch& stretch) const {
    if (!stretch.until.function) {
      return stretch.until.constant;
    }
    return least_span(network_.grid(stretch.activity),
                      windows_.low(stretch.activity),
                      windows_.high(stretch.activity),
                      [&](Tick start) { return stretch.until.at(start); });
  }

  [[nodiscard]] Side draw_with(int resource,
                               const std::vector<Stretch>& stretches,
                               const std::vector<Tick>& ends) const {
    const auto& capacity = project_.resources[resource].capacity;
    Side side{most_of(capacity), &capacity, {}};
    std::vector<bool> is_counted(project_.activities.size(), false);
    for (std::size_t i = 0; i < stretches.size(); ++i) {
      const int activity = stretches[i].activity;
      if (is_counted[activity]) {
        continue;  // a second stretch of it could count the same demand twice
      }
      is_counted[activity] = true;
      for (const Demand& demand : project_.activities[activity].demands) {
        const Tick from = std::max(demand.from, stretches[i].from);
        const Tick to = std::min(demand.to, ends[i]);
        if (demand.resource == resource && demand.amount > 0 && from < to) {
          side.uses.push_back({activity, demand.amount, from, to});
        }
      }
    }
    return side;
  }

  const Project& project_;
  const LagNetwork& network_;
  const Windows& windows_;
};

void add_side(const Side& side, int scale, std::vector<Pool::Use>& uses) {
  for (Pool::Use use : side.uses) {
    use.amount *= scale;
    uses.push_back(use);
  }
}

std::optional<Pool> join(const Side& one, const Side& other) {
  if (one.most == 0 || other.most == 0) {
    return std::nullopt;  // one side takes nothing: what the other takes is bounded without it
  }
  const std::int64_t whole = std::lcm(std::int64_t{one.most}, std::int64_t{other.most});
  if (whole > kMostCapacity) {
    return std::nullopt;
  }
  const int one_scale = static_cast<int>(whole) / one.most;
  const int other_scale = static_cast<int>(whole) / other.most;
  Pool pool;
  add_side(one, one_scale, pool.uses);
  add_side(other, other_scale, pool.uses);
  std::vector<Tick> moments;
  for (const Side* side : {&one, &other}) {
    for (const CapacityStep& step : *side->capacity) {
      moments.push_back(step.at);
    }
  }
  std::sort(moments.begin(), moments.end());
  moments.erase(std::unique(moments.begin(), moments.end()), moments.end());
  for (const Tick moment : moments) {
    pool.capacity.push_back({moment,
                             std::max(one_scale * capacity_at(*one.capacity, moment),
                                      other_scale * capacity_at(*other.capacity, moment))});
  }
  return pool;
}

}  // namespace

Pool pool_of(const Project& project, int resource) {
  Pool pool;
  pool.capacity = project.resources[resource].capacity;
  for (std::size_t i = 0; i < project.activities.size(); ++i) {
    for (const Demand& demand : project.activities[i].demands) {
      if (demand.resource == resource && demand.amount > 0 && demand.from < demand.to) {
        pool.uses.push_back({static_cast<int>(i), demand.amount, demand.from, demand.to});
      }
    }
  }
  for (std::size_t i = 0; i < project.holds.size(); ++i) {
    if (project.holds[i].resource == resource && project.holds[i].amount > 0) {
      pool.holds.push_back(static_cast<int>(i));
    }
  }
  return pool;
}

std::vector<Pool> pools_of(const Project& project,
                           const LagNetwork& network,
                           const Windows& windows) {
  std::vector<Pool> pools;
  for (std::size_t i = 0; i < project.resources.size(); ++i) {
    pools.push_back(pool_of(project, static_cast<int>(i)));
  }
  const SideDrawing drawing(project, network, windows);
  for (const Exclusion& exclusion : project.exclusions) {
    const Side one = drawing.draw(exclusion.one_side);
    const Side other = drawing.draw(exclusion.other_side);
    if (auto pool = join(one, other)) {
      pools.push_back(std::move(*pool));
    }
  }
  return pools;
}

}  // namespace coatwright
