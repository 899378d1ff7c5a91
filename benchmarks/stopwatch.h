#pragma once

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

/// Processor time since it was made.
class Stopwatch {
 public:
  [[nodiscard]] double seconds() const { return processor_seconds(RUSAGE_SELF) - begin_; }

 private:
  double begin_ = processor_seconds(RUSAGE_SELF);
};

}  // namespace coatwright
