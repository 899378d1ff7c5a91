#include "scheduling/chain_shift.h"

#include <catch2/catch.hpp>

#include "own_schedule_checker.h"

using namespace coatwright;

namespace {

/// A coat that lies on the one rack until its next work, five ticks after it; another piece lies
/// there from 7 to 20.
Project with_full_rack() {
  Project project;
  project.horizon = 40;
  project.start_sets = {{{{0, 40}}}};
  project.resources = {{"rack", {{0, 1}}}};
  project.activities = {{"coat", 1, {}, 0}, {"next", 1, {}, 0}, {"other", 13, {{0, 1, 0, 13}}, 0}};
  project.min_lags = {{0, 1, Lag{5}}};
  project.holds = {{0, 1, 0, 1, 1, 0, Lag{}}};
  return project;
}

}  // namespace

// Checked against: the separate checker, and a schedule found by hand.
TEST_CASE("A shift moves along what waits, and finds room for all that it takes", "[scheduling]") {
  const Project project = with_full_rack();
  const LagNetwork network(project);
  Board board(project, network);
  const std::vector<Tick> before{0, 5, 7};
  for (int i = 0; i < 3; ++i) {
    board.place(i, before[i]);
  }
  ChainShift shift(project, network, board);
  REQUIRE(shift.run(ChainShift::Direction::kLater, {{0, 3}}, 41));
  // From 4 on the rack would be taken until 8, and the other piece has it from 7.
  CHECK(board.starts() == std::vector<Tick>{19, 24, 7});
  CHECK(own::broken_rules(project, {board.starts()}).empty());
  shift.undo();
  CHECK(board.starts() == before);
  CHECK_FALSE(shift.run(ChainShift::Direction::kLater, {{0, 3}}, 20));
  CHECK(board.starts() == before);
  REQUIRE(shift.insert(ChainShift::Direction::kLater, {0, 4}, 41));
  CHECK(board.starts() == std::vector<Tick>{4, 9, 9});
  CHECK(own::broken_rules(project, {board.starts()}).empty());
}
