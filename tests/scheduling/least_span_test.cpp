#include "scheduling/least_span.h"

#include <catch2/catch.hpp>

#include "scheduling/random.h"

using namespace coatwright;

// Checked against: each start in turn.
TEST_CASE("The least span is not above that of any start, and near the least", "[scheduling]") {
  for (std::uint64_t seed = 0; seed < 40; ++seed) {
    CAPTURE(seed);
    Random random(seed);
    const StartGrid grid(StartSet{{{0, 100}, {200, 340}, {500, 600}}}, 5, 580);
    std::vector<Tick> moments;
    for (Tick start = 0; start <= 600; ++start) {
      const Tick before = moments.empty() ? 0 : moments.back();
      moments.push_back(std::max(before, start + 40 + random.below(200)));
    }
    const Tick low = 5 * random.below(20);
    Tick least = kNeverTick;
    for (Tick start = grid.up(low); start < kNeverTick; start = grid.up(start + 1)) {
      least = std::min(least, moments[start] - start);
    }
    const Tick found = least_span(grid, low, 580, [&](Tick start) { return moments[start]; });
    CHECK(found <= least);
    CHECK(found >= least - least / 32);
  }
}

TEST_CASE("Without a start there is no span", "[scheduling]") {
  const StartGrid grid(StartSet{{{0, 100}}}, 5, 100);
  CHECK(least_span(grid, 60, 50, [](Tick start) { return start + 7; }) == 0);
}
