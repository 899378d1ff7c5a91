#include "scheduling/start_grid.h"

#include <catch2/catch.hpp>

using namespace coatwright;

// Consistency check: by hand, for hours 20 .. 40 and 60 .. 80 at a grain of 5.
TEST_CASE("A start grid steps over closed time in both directions", "[scheduling]") {
  const StartGrid grid(StartSet{{{20, 40}, {60, 80}}}, 5, 75);
  CHECK(grid.up(0) == 20);
  CHECK(grid.up(21) == 25);
  CHECK(grid.up(40) == 40);
  CHECK(grid.up(41) == 60);
  CHECK(grid.up(75) == 75);
  CHECK(grid.up(76) == kNeverTick);
  CHECK(grid.down(19) == StartGrid::kNoStart);
  CHECK(grid.down(39) == 35);
  CHECK(grid.down(59) == 40);
  CHECK(grid.down(kNeverTick) == 75);
}

TEST_CASE("A set without starts before the horizon has none", "[scheduling]") {
  const StartGrid grid(StartSet{{{20, 40}}}, 5, 10);
  CHECK(grid.up(0) == kNeverTick);
  CHECK(grid.down(kNeverTick) == StartGrid::kNoStart);
}
