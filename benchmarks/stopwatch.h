#pragma once

#include <chrono>

#include <sys/resource.h>

namespace coatwright {

/// Processor time of this program, or of those that it called and that have ended: a busy machine
/// does not blur it.
[[nodiscard]] inline double processor_seconds(int whose) {
  rusage usage{};
  getrusage(whose, &usage);
  const auto seconds = [](const timeval& time) {
    return static_cast<double>(time.tv_sec) + 1e-6 * static_cast<double>(time.tv_usec);
  };
  return seconds(usage.ru_utime) + seconds(usage.ru_stime);
}

[[nodiscard]] inline double seconds_of_children() {
  return processor_seconds(RUSAGE_CHILDREN);
}

/// Time since it was made, as on a clock on the wall: what is waited for when two threads work.
class WallClock {
 public:
  [[nodiscard]] double seconds() const {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin_).count();
  }

 private:
  std::chrono::steady_clock::time_point begin_ = std::chrono::steady_clock::now();
};

/// Processor time since it was made.
class Stopwatch {
 public:
  [[nodiscard]] double seconds() const { return processor_seconds(RUSAGE_SELF) - begin_; }

 private:
  double begin_ = processor_seconds(RUSAGE_SELF);
};

}  // namespace coatwright
