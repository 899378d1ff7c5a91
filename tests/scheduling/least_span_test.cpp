#include "scheduling/least_span.h"

#include <catch2/catch.hpp>

#include "scheduling/random.h"

using namespace coatwright;

// Checked against: each start in turn.
TEST_CASE("The least span is that of some start, and of none is less", "[scheduling]") {
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
    CHECK(found == least);
  }
}

TEST_CASE("Without a start there is no span", "[scheduling]") {
  const StartGrid grid(StartSet{{{0, 100}}}, 5, 100);
  CHECK(least_span(grid, 60, 50, [](Tick start) { return start + 7; }) == 0);
}

TEST_CASE("Over very many starts the least span may be missed, but not to above it",
          "[scheduling]") {
  const StartGrid grid(StartSet{{{0, 100'000}}}, 1, 100'000);
  // All alike but for one late start: whoever follows a moment must look at each.
  const auto moment = [](Tick start) { return start == 90'000 ? start + 6 : start + 7; };
  const Tick found = least_span(grid, 0, 100'000, moment);
  CHECK(found <= 6);
  CHECK(found >= 7 - 100'000 / 400);
}
