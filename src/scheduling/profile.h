#pragma once

#include <optional>
#include <span>
#include <vector>

#include "scheduling/project.h"

namespace coatwright {

/// How much of a resource is free over time, as a list of the moments where that changes.
class Profile {
 public:
  explicit Profile(std::span<const CapacityStep> capacity);

  /// Where a stretch of time is short of an amount.
  struct Shortage {
    Tick from = 0;
    Tick until = 0;  ///< kNeverTick: to the end of time.
  };
  /// @return the last shortage that touches begin .. end, whole to its right.
  [[nodiscard]] std::optional<Shortage> last_shortage(Tick begin, Tick end, int amount) const;
  /// @return the first shortage that touches begin .. end, whole to its left.
  [[nodiscard]] std::optional<Shortage> first_shortage(Tick begin, Tick end, int amount) const;
  [[nodiscard]] bool fits(Tick begin, Tick end, int amount) const {
    return !last_shortage(begin, end, amount);
  }

  /// Takes an amount from `begin` up to `end`; it may fall below zero. A negative amount is given
  /// back.
  void take(Tick begin, Tick end, int amount);

 private:
  struct Segment {
    Tick from;
    int free;
  };
  /// The segment that a moment lies in.
  [[nodiscard]] std::size_t segment_at(Tick tick) const;
  [[nodiscard]] Tick end_of(std::size_t segment) const {
    return segment + 1 < segments_.size() ? segments_[segment + 1].from : kNeverTick;
  }
  std::size_t split(Tick at);
  void join(std::size_t segment);

  std::vector<Segment> segments_;
};

}  // namespace coatwright
