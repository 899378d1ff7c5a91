#pragma once

#include <vector>

#include "scheduling/project.h"

namespace coatwright {

/// The starts of a set up to the horizon, for steps to the next one in either direction.
class StartGrid {
 public:
  StartGrid(const StartSet& set, Tick grain, Tick horizon);

  /// @return the first start that is not before a moment; kNeverTick when there is none.
  [[nodiscard]] Tick up(Tick tick) const;
  /// @return the last start that is not after a moment; kNoStart when there is none.
  [[nodiscard]] Tick down(Tick tick) const;
  [[nodiscard]] const std::vector<StartSpan>& spans() const { return spans_; }

  static constexpr Tick kNoStart = -1;

 private:
  Tick grain_;
  std::vector<StartSpan> spans_;
};

}  // namespace coatwright
