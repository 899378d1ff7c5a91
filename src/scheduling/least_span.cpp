#include "scheduling/least_span.h"

#include <algorithm>

namespace coatwright {
namespace {

constexpr Tick kCloseLooks = 4000;  // at every start that may have the least span
constexpr Tick kWideLooks = 500;    // at the rest, where it is very long

}  // namespace

/// What follows from one start bounds the spans of all that come after it: the moment is no
/// earlier for them. So the starts up to a moment less the least span so far cannot have a lesser
/// one. Where looks run out, starts are leapt over as well, and the bound falls to what the last
/// look says of them.
Tick least_span(const StartGrid& grid,
                Tick low,
                Tick high,
                const std::function<Tick(Tick)>& moment) {
  Tick least = kNeverTick;
  Tick looks = kCloseLooks + kWideLooks;
  Tick start = grid.up(low);
  if (start > high) {
    return 0;
  }
  while (start <= high) {
    const Tick at = moment(start);
    if (at >= kNeverTick) {
      break;
    }
    least = std::min(least, at - start);
    const Tick stride = looks > kWideLooks ? 0 : (high - start) / looks;
    looks = std::max<Tick>(1, looks - 1);
    const Tick next = grid.up(std::max({start + 1, at - least + 1, start + stride}));
    least = std::min(least, at - grid.down(std::min(high, next - 1)));
    start = next;
  }
  return least;
}

}  // namespace coatwright
