#include "scheduling/chain_shift.h"

#include <catch2/catch.hpp>

#include "own_schedule_checker.h"
#include "own_shops.h"
#include "scheduling/solver.h"

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

/// Shifts drawn at random, one after another, in a schedule of a drawn shop.
class DrawnShifts {
 public:
  DrawnShifts(const Project& project, const StartTimes& schedule, int seed)
      : project_(project),
        network_(project),
        board_(project, network_),
        shift_(project, network_, board_),
        random_(static_cast<std::uint64_t>(seed)) {
    for (int i = 0; i < count(); ++i) {
      board_.place(i, schedule.starts[i]);
    }
    end_ = cost_of(project, schedule).end;
  }

  /// Of some activities that follow each other, in one direction.
  void shift_some() {
    const Direction direction = some_direction();
    std::vector<ChainShift::Move> moves;
    const int first = random_.between(0, count() - 1);
    const int last = std::min(count() - 1, first + random_.between(0, 2));
    for (int activity = first; activity <= last; ++activity) {
      moves.emplace_back(activity, board_.start(activity) + sign(direction) * some_way());
    }
    const std::vector<Tick> before = board_.starts();
    const Tick end = end_ + random_.between(0, 6);
    check(before, end, shift_.run(direction, moves, end));
    for (const auto& [activity, start] : moves) {
      CHECK((board_.starts() == before || sign(direction) * (board_.start(activity) - start) >= 0));
    }
    check_direction(before, direction, -1);
    take_half_back(before);
  }

  void insert_one() {
    const Direction direction = some_direction();
    const int activity = random_.between(0, count() - 1);
    const int way = random_.chance(50) ? 1 : -1;
    const Tick start = std::max(0, board_.start(activity) + way * some_way());
    const std::vector<Tick> before = board_.starts();
    const Tick end = end_ + random_.between(0, 6);
    const bool done = shift_.insert(direction, {activity, start}, end);
    check(before, end, done);
    CHECK((!done || sign(direction) * (board_.start(activity) - start) >= 0));
    check_direction(before, direction, activity);
    take_half_back(before);
  }

  [[nodiscard]] int done() const { return done_; }

 private:
  using Direction = ChainShift::Direction;

  [[nodiscard]] int count() const { return static_cast<int>(project_.activities.size()); }
  static int sign(Direction direction) { return direction == Direction::kLater ? 1 : -1; }
  Direction some_direction() {
    return random_.chance(50) ? Direction::kLater : Direction::kEarlier;
  }
  Tick some_way() { return random_.between(1, random_.chance(50) ? 4 : 16); }

  void check(const std::vector<Tick>& before, Tick end, bool done) {
    CHECK(own::broken_rules(project_, {board_.starts()}) == std::vector<std::string>{});
    CHECK(own::cost_by_hand(project_, {board_.starts()}).end <= std::max(end, end_));
    CHECK((done || board_.starts() == before));
    done_ += done ? 1 : 0;
  }

  void check_direction(const std::vector<Tick>& before, Direction direction, int but) const {
    for (int i = 0; i < count(); ++i) {
      CHECK((i == but || sign(direction) * (board_.start(i) - before[i]) >= 0));
    }
  }

  void take_half_back(const std::vector<Tick>& before) {
    if (board_.starts() != before && random_.chance(50)) {
      shift_.undo();
      CHECK(board_.starts() == before);
      CHECK(own::broken_rules(project_, {before}) == std::vector<std::string>{});
    }
    end_ = std::max(end_, cost_of(project_, {board_.starts()}).end);
  }

  const Project& project_;
  LagNetwork network_;
  Board board_;
  ChainShift shift_;
  own::Random random_;
  Tick end_ = 0;
  int done_ = 0;
};

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

// Checked against: the separate checker, after each of many shifts in shops where recoat windows
// close and racks are full.
TEST_CASE("Shifts one after another keep every rule", "[scheduling]") {
  int done = 0;  // shifts that found a place for all
  for (int seed = 1; seed <= 60; ++seed) {
    INFO("seed " << seed);
    const Project project = own::large_shop(seed);
    const SearchResult solved = solve(project, {.nodes = 100});
    if (!solved.schedule) {
      continue;
    }
    DrawnShifts shifts(project, *solved.schedule, seed);
    for (int i = 0; i < 40; ++i) {
      shifts.shift_some();
      shifts.insert_one();
    }
    done += shifts.done();
  }
  CHECK(done > 500);
}
