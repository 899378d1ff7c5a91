#include "scheduling/start_domain.h"

#include <algorithm>

namespace coatwright {
namespace {

Tick rounded_up(Tick tick, Tick grain) {
  const Tick rest = tick % grain;
  return rest == 0 ? tick : tick - rest + (rest > 0 ? grain : 0);
}

}  // namespace

StartDomain::StartDomain(const StartSet& set, Tick grain, Tick earliest, Tick latest)
    : grain_(grain) {
  for (const StartSpan& span : set.spans) {
    const Tick first = rounded_up(std::max(span.first, earliest), grain);
    const Tick last = std::min(span.last, latest);
    if (first <= last) {
      const int count = (last - first) / grain + 1;
      runs_.push_back({first, first + (count - 1) * grain, size_});
      size_ += count;
    }
  }
}

Tick StartDomain::tick_in_runs(int index) const {
  const auto next =
      std::upper_bound(runs_.begin(), runs_.end(), index, [](int wanted, const Run& run) {
        return wanted < run.before;
      });
  const Run& run = *(next - 1);
  return run.first + (index - run.before) * grain_;
}

int StartDomain::index_in_runs(Tick tick) const {
  const auto run =
      std::lower_bound(runs_.begin(), runs_.end(), tick, [](const Run& one, Tick wanted) {
        return one.last < wanted;
      });
  return run == runs_.end() ? size_ : index_in(*run, tick);
}

}  // namespace coatwright
