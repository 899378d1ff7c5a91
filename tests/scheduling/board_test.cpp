#include "scheduling/board.h"

#include <catch2/catch.hpp>

#include "own_projects.h"
#include "own_schedule_checker.h"
#include "scheduling/random.h"

using namespace coatwright;

namespace {

/// The project without its lags, which a board does not look at.
Project without_lags(Project project) {
  project.min_lags.clear();
  project.max_lags.clear();
  return project;
}

bool is_kept(const Project& project, const std::vector<Tick>& starts) {
  return own::broken_rules(project, StartTimes{starts}).empty();
}

}  // namespace

// Checked against: the separate checker, asked for each start of the last activity.
TEST_CASE("A board finds the first and the last start that fit", "[scheduling]") {
  int fits = 0;
  int misfits = 0;
  for (int seed = 0; seed < 300; ++seed) {
    CAPTURE(seed);
    const Project project = without_lags(own::random_project(static_cast<std::uint64_t>(seed)));
    const LagNetwork network(project);
    Board board(project, network);
    bool placed = true;
    for (int i = 0; i + 1 < network.count(); ++i) {
      const auto start = board.first_fit(i, 0, project.horizon);
      placed = placed && start.has_value();
      if (start) {
        board.place(i, *start);
      }
    }
    if (!placed) {
      continue;
    }
    const int last = network.count() - 1;
    std::vector<Tick> starts = board.starts();
    std::optional<Tick> first;
    for (Tick start = 0; start <= project.horizon; ++start) {
      starts[last] = start;
      const bool kept = is_kept(project, starts);
      first = kept && !first ? start : first;
      if (start % project.grain == 0) {
        CHECK(board.obstacle_at(last, start).has_value() != kept);
        (kept ? fits : misfits) += 1;
      }
    }
    CHECK(board.first_fit(last, 0, project.horizon) == first);
    const auto latest = board.last_fit(last, 0, project.horizon);
    CHECK((!latest || first.has_value()));
    if (latest) {
      starts[last] = *latest;
      CHECK(is_kept(project, starts));
    }
  }
  CHECK(fits > 100);
  CHECK(misfits > 100);
}

TEST_CASE("A board forgets what is removed", "[scheduling]") {
  for (int seed = 0; seed < 100; ++seed) {
    CAPTURE(seed);
    const Project project = without_lags(own::random_project(static_cast<std::uint64_t>(seed)));
    const LagNetwork network(project);
    Board empty(project, network);
    Board board(project, network);
    Random random(static_cast<std::uint64_t>(seed));
    for (int move = 0; move < 20; ++move) {
      const int activity = random.below(network.count());
      if (board.is_placed(activity)) {
        board.remove(activity);
      } else if (const auto start = board.first_fit(activity, 0, project.horizon)) {
        board.place(activity, *start);
      }
    }
    for (int i = 0; i < network.count(); ++i) {
      if (board.is_placed(i)) {
        board.remove(i);
      }
    }
    CHECK(board.placed() == 0);
    for (int i = 0; i < network.count(); ++i) {
      for (Tick start = 0; start <= project.horizon; start += project.grain) {
        CHECK(board.obstacle_at(i, start).has_value() == empty.obstacle_at(i, start).has_value());
      }
    }
  }
}

TEST_CASE("A rack place is taken until the next work starts, however late", "[scheduling]") {
  Project project;
  project.horizon = 100;
  project.start_sets.push_back({{{0, 100}}});
  project.resources.push_back({"rack", {{0, 1}}});
  project.activities.assign(4, {"work", 2, {}, 0});
  for (const int coat : {0, 2}) {
    project.min_lags.push_back({coat, coat + 1, Lag{10}});
    project.holds.push_back({0, 1, coat, 2, coat + 1, 0, Lag{}});
  }
  const LagNetwork network(project);
  Board board(project, network);
  board.place(0, 0);
  CHECK(board.first_fit(2, 0, 100) == 8);  // what dries first leaves the rack at 10 at best
  board.place(1, 30);
  CHECK(board.first_fit(2, 0, 100) == 28);
  board.remove(1);
  board.place(2, 8);
  CHECK_FALSE(board.first_fit(1, 11, 100).has_value());
  CHECK(board.obstacle().hold_from == 0);
  CHECK(board.blockers(1, 11) == std::vector<int>{2});
}
