#pragma once

#include <chrono>

namespace coatwright {

/// A moment, in UTC; local times exist only at the edges (base/zone.h).
using Time = std::chrono::sys_seconds;

/// A span of time in which something may be done: [start, end).
struct Interval {
  Time start;
  Time end;
  bool operator==(const Interval&) const = default;
};

}  // namespace coatwright
