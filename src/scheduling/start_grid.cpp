#include "scheduling/start_grid.h"

#include <algorithm>

namespace coatwright {

StartGrid::StartGrid(const StartSet& set, Tick grain, Tick horizon) : grain_(grain) {
  const Tick last = horizon - horizon % grain;
  for (const StartSpan& span : set.spans) {
    const StartSpan kept{std::max<Tick>(span.first, 0), std::min(span.last, last)};
    if (kept.first <= kept.last) {
      spans_.push_back(kept);
    }
  }
}

Tick StartGrid::up(Tick tick) const {
  const auto span =
      std::lower_bound(spans_.begin(), spans_.end(), tick, [](const StartSpan& one, Tick wanted) {
        return one.last < wanted;
      });
  if (span == spans_.end()) {
    return kNeverTick;
  }
  return tick <= span->first ? span->first : (tick + grain_ - 1) / grain_ * grain_;
}

Tick StartGrid::down(Tick tick) const {
  const auto after =
      std::upper_bound(spans_.begin(), spans_.end(), tick, [](Tick wanted, const StartSpan& one) {
        return wanted < one.first;
      });
  if (after == spans_.begin()) {
    return kNoStart;
  }
  const StartSpan& span = *std::prev(after);
  return tick >= span.last ? span.last : tick / grain_ * grain_;
}

}  // namespace coatwright
