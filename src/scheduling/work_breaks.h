#pragma once

#include <vector>

#include "scheduling/project.h"

namespace coatwright {

/// Work without a break in it.
struct WorkBlock {
  Tick from = 0;
  Tick to = 0;
  std::vector<int> activities;  ///< In order of their starts.
  bool after_break = false;     ///< The block before ended in the same open time.
};

/// Finds where work breaks off: nobody is at work, although people are there all the time until
/// work goes on, and something could have begun meanwhile.
class WorkBreaks {
 public:
  /// @param people the resource whose capacity says when people are there.
  WorkBreaks(const Project& project, int people);

  /// The work of a schedule between its breaks and the closed times, in order.
  [[nodiscard]] std::vector<WorkBlock> blocks(const std::vector<Tick>& starts) const;
  [[nodiscard]] int count(const std::vector<Tick>& starts) const;

 private:
  [[nodiscard]] bool is_idle(Tick from, Tick to) const;
  [[nodiscard]] bool is_staffed(Tick from, Tick to) const;
  [[nodiscard]] std::vector<std::pair<Tick, int>> by_start(const std::vector<Tick>& starts) const;

  const Project& project_;
  std::vector<StartSpan> staffed_;  ///< From the first moment with people up to the last.
};

}  // namespace coatwright
