#pragma once

#include <cstdint>
#include <vector>

#include "scheduling/pool.h"

namespace coatwright {

/// How much of a pool any schedule can use over time: only where an activity that needs it may lie,
/// and, as work is not interrupted, no more in one opening than whole activities fill.
class UsableCapacity {
 public:
  UsableCapacity(const Project& project, const Pool& pool);

  /// @return the most that activities lying between two moments can take, as amount times ticks.
  [[nodiscard]] std::int64_t between(Tick begin, Tick end) const;
  /// @return the first moment up to which, from `begin` on, so much can be taken; kNeverTick: none.
  [[nodiscard]] Tick reached(Tick begin, std::int64_t energy) const;
  /// @return for slots of a length from 0 on, what there is in each, as amount times ticks, whether
  /// whole activities fill it or not.
  [[nodiscard]] std::vector<std::int64_t> by_slots(Tick length, std::size_t count) const;

 private:
  struct Segment {
    Tick from;
    Tick until;
    int capacity;
  };
  /// A stretch of usable time without a break: every activity that touches it lies inside it.
  struct Opening {
    Tick from;
    Tick until;
    std::size_t first;    ///< Its segments.
    std::size_t last;     ///< One past them.
    std::int64_t before;  ///< What all openings before it can give.
  };

  [[nodiscard]] std::int64_t within(const Opening& opening, Tick begin, Tick end) const;
  void find_packings(const Project& project, const Pool& pool);
  void add_opening(const std::vector<CapacityStep>& capacity, Tick from, Tick until);

  std::vector<Segment> segments_;
  std::vector<Opening> openings_;
  std::vector<Tick> filled_;  ///< By length in units_: the most that whole activities fill of it.
  Tick unit_ = 1;
};

}  // namespace coatwright
