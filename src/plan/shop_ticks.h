#pragma once

#include <algorithm>

#include "base/time.h"
#include "plan/opening_hours.h"
#include "scheduling/project.h"

namespace coatwright {

/// A shop's plan counts minutes, and begins its sessions on the calendar's grain.
inline constexpr Tick kGrainTicks = 5;
static_assert(std::chrono::minutes(kGrainTicks) == kCalendarGrain);

/// Moments as minutes from the plan's start and back.
class TickScale {
 public:
  /// Tick 0 is `from`, or the moment of the calendar's grain before it.
  explicit TickScale(Time from) : origin_(from - from.time_since_epoch() % kCalendarGrain) {}

  [[nodiscard]] Time time(Tick tick) const { return origin_ + std::chrono::minutes(tick); }
  /// The first whole minute not before a moment.
  [[nodiscard]] Tick not_before(Time time) const {
    return within(std::chrono::ceil<std::chrono::minutes>(time - origin_));
  }
  /// The last whole minute not after a moment.
  [[nodiscard]] Tick not_after(Time time) const {
    return within(std::chrono::floor<std::chrono::minutes>(time - origin_));
  }

 private:
  [[nodiscard]] static Tick within(std::chrono::minutes span) {
    constexpr std::chrono::minutes kFurthest{kNeverTick};
    return static_cast<Tick>(std::clamp(span, -kFurthest, kFurthest).count());
  }

  Time origin_;
};

/// A span of work in minutes, rounded up.
[[nodiscard]] inline Tick ticks_of(std::chrono::seconds span) {
  return static_cast<Tick>(std::chrono::ceil<std::chrono::minutes>(span).count());
}

/// @return the first multiple of the grain that is not below a tick.
[[nodiscard]] inline Tick grain_up(Tick tick) {
  const Tick over = tick % kGrainTicks;
  return over == 0 ? tick : tick - over + (over > 0 ? kGrainTicks : 0);
}

/// @return the last multiple of the grain that is not above a tick.
[[nodiscard]] inline Tick grain_down(Tick tick) {
  return -grain_up(-tick);
}

}  // namespace coatwright
