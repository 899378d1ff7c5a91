#pragma once

#include <vector>

#include "scheduling/windows.h"

namespace coatwright {

/// What is shared out over time: a resource, or the time that the two sides of an exclusion share.
struct Pool {
  /// So much of it from start + from up to start + to.
  struct Use {
    int activity;
    int amount;
    Tick from;
    Tick to;
  };

  std::vector<CapacityStep> capacity;  ///< In order, the first at 0.
  std::vector<Use> uses;               ///< Each takes time.
  std::vector<int> holds;              ///< Indices into Project::holds.
};

/// What limits a project's schedules: its resources, in order, and then a pool for each exclusion
/// where one can be drawn up. A schedule takes no more of a pool at any moment than its capacity.
///
/// The pool of an exclusion: at any moment stretches of one side may lie, or of the other. Where
/// each stretch of one side comes with a demand on a resource of at most a, and each of the other
/// with one on a resource of at most b, let K be the least common multiple of a and b. While the
/// demand and its stretch both run, it takes K / a per amount of the pool, or K / b on the other
/// side. As a moment belongs to one side, no more than a * K / a or b * K / b is taken of it.
/// Where a resource is away for a time, the larger of what both sides can then take is there.
/// Derived here; sides need not use the same resource, and a stretch without a demand takes none.
/// @param windows drawn from all lags.
[[nodiscard]] std::vector<Pool> pools_of(const Project& project,
                                         const LagNetwork& network,
                                         const Windows& windows);

/// A resource alone.
[[nodiscard]] Pool pool_of(const Project& project, int resource);

}  // namespace coatwright
