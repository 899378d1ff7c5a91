#include "scheduling/least_span.h"

#include <algorithm>
#include <vector>

namespace coatwright {
namespace {

constexpr int kMostLooks = 300;
constexpr Tick kCloseEnough = 64;  // the part of the span that may be missed

/// Starts from which the span is at least `bound`.
struct StartRun {
  Tick bound;
  Tick first;
  Tick last;
  bool operator>(const StartRun& other) const {
    return bound != other.bound ? bound > other.bound : first > other.first;
  }
};

}  // namespace

Tick least_span(const StartGrid& grid,
                Tick low,
                Tick high,
                const std::function<Tick(Tick)>& moment) {
  std::vector<StartRun> open;
  Tick met = kNeverTick;  // a span that some start has
  const auto add = [&](Tick first, Tick last) {
    if (first <= last) {
      const Tick at = moment(first);
      met = std::min(met, at - first);
      open.push_back({at - last, first, last});
      std::push_heap(open.begin(), open.end(), std::greater<>());
    }
  };
  for (const StartSpan& span : grid.spans()) {
    add(std::max(span.first, grid.up(low)), std::min(span.last, grid.down(high)));
  }
  for (int looks = 0; looks < kMostLooks && !open.empty(); ++looks) {
    if (met - open.front().bound <= met / kCloseEnough) {
      break;
    }
    std::pop_heap(open.begin(), open.end(), std::greater<>());
    const StartRun least = open.back();
    open.pop_back();
    const Tick middle = grid.down(least.first + (least.last - least.first) / 2);
    add(least.first, middle);
    add(grid.up(middle + 1), least.last);
  }
  return open.empty() ? 0 : open.front().bound;
}

}  // namespace coatwright
