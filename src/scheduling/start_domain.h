#pragma once

#include <vector>

#include "scheduling/project.h"

namespace coatwright {

/// The starts that one activity may have, numbered from 0 without holes: a search over these
/// numbers never meets closed hours.
class StartDomain {
 public:
  /// @param set its starts. @param earliest,latest further limits.
  StartDomain(const StartSet& set, Tick grain, Tick earliest, Tick latest);

  [[nodiscard]] int size() const { return size_; }
  [[nodiscard]] Tick tick_of(int index) const {
    return runs_.size() == 1 ? runs_.front().first + index * grain_ : tick_in_runs(index);
  }
  /// @return the first index whose start is not before a moment; size() when there is none.
  [[nodiscard]] int index_up(Tick tick) const {
    return runs_.size() == 1 ? index_in(runs_.front(), tick) : index_in_runs(tick);
  }
  /// @return the last index whose start is not after a moment; -1 when there is none.
  [[nodiscard]] int index_down(Tick tick) const { return index_up(tick + 1) - 1; }

 private:
  struct Run {
    Tick first;
    Tick last;
    int before;  ///< Starts in the runs before it.
  };
  [[nodiscard]] Tick tick_in_runs(int index) const;
  [[nodiscard]] int index_in_runs(Tick tick) const;
  [[nodiscard]] int index_in(const Run& run, Tick tick) const {
    if (tick <= run.first) {
      return run.before;
    }
    return tick > run.last ? size_ : run.before + (tick - run.first + grain_ - 1) / grain_;
  }

  Tick grain_;
  int size_ = 0;
  std::vector<Run> runs_;
};

}  // namespace coatwright
