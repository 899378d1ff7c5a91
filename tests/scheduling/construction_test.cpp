#include "scheduling/construction.h"

#include <catch2/catch.hpp>

#include "own_projects.h"
#include "own_schedule_checker.h"
#include "scheduling/priority_rules.h"
#include "scheduling/shifting.h"

using namespace coatwright;

namespace {

const std::function<bool()> kNoStop;

/// Two coats on one piece, the second within its window, and one spray place.
Project two_coats(int pieces) {
  Project project;
  project.horizon = 400;
  project.start_sets.push_back({{{0, 400}}});
  project.resources.push_back({"spray place", {{0, 1}}});
  for (int i = 0; i < 2 * pieces; ++i) {
    project.activities.push_back({"coat", 10, {{0, 1, 0, 10}}, 0});
  }
  for (int i = 0; i < pieces; ++i) {
    project.min_lags.push_back({2 * i, 2 * i + 1, Lag{20}});
    project.max_lags.push_back({2 * i, 2 * i + 1, Lag{24}});
  }
  return project;
}

}  // namespace

// Checked against: the separate checker.
TEST_CASE("What construction builds keeps every rule", "[scheduling]") {
  int built = 0;
  for (int seed = 0; seed < 120; ++seed) {
    CAPTURE(seed);
    const Project project = own::random_project(static_cast<std::uint64_t>(seed));
    const LagNetwork network(project);
    Windows windows(network);
    if (!windows.propagate()) {
      continue;
    }
    Construction construction(project, network, windows, kNoStop);
    Random random(1);
    for (const PlacingOrder& order : priority_orders(project, network, windows, true)) {
      if (construction.run(order, random)) {
        ++built;
        StartTimes schedule{construction.board().starts()};
        CHECK(own::broken_rules(project, schedule) == std::vector<std::string>{});
        const ProjectCost before = cost_of(project, schedule);
        shift_later(project, network, construction.board(), before.end);
        schedule.starts = construction.board().starts();
        CHECK(own::broken_rules(project, schedule) == std::vector<std::string>{});
        CHECK(cost_of(project, schedule).end == before.end);
        shift_earlier(network, construction.board());
        schedule.starts = construction.board().starts();
        CHECK(own::broken_rules(project, schedule) == std::vector<std::string>{});
        CHECK(cost_of(project, schedule).end <= before.end);
      }
    }
  }
  CHECK(built > 400);
}

TEST_CASE("A coat whose successor would miss its window is pushed later", "[scheduling]") {
  // Coats at 0 and 20 leave room for one at 10 but not for its second at 30 .. 34 and so on: the
  // third piece has to wait whatever the order.
  const Project project = two_coats(3);
  const LagNetwork network(project);
  Windows windows(network);
  REQUIRE(windows.propagate());
  Construction construction(project, network, windows, kNoStop);
  Random random(1);
  REQUIRE(construction.has_blocks());
  REQUIRE(construction.run({{0, 1, 2, 3, 4, 5}, true, 50}, random));
  CHECK(own::broken_rules(project, StartTimes{construction.board().starts()}) ==
        std::vector<std::string>{});
  // By hand: 0 20, 10 30, 40 60.
  CHECK(construction.board().starts() == std::vector<Tick>{0, 20, 10, 30, 40, 60});
}

TEST_CASE("Where nothing can be built it is said what was short", "[scheduling]") {
  Project project = two_coats(1);
  project.resources[0].capacity = {{0, 1}, {15, 0}};
  const LagNetwork network(project);
  Windows windows(network);
  REQUIRE(windows.propagate());
  Construction construction(project, network, windows, kNoStop);
  Random random(1);
  REQUIRE_FALSE(construction.run({{0, 1}, true, 50}, random));
  CHECK(construction.no_place().activity == 1);
  CHECK(construction.no_place().resource == 0);
  CHECK(construction.no_place().missed_from == 0);
}

TEST_CASE("A rack that is full makes the earlier coat wait", "[scheduling]") {
  Project project = two_coats(3);
  project.max_lags.clear();
  project.resources.push_back({"rack", {{0, 1}}});
  for (const int coat : {0, 2, 4}) {
    project.holds.push_back({1, 1, coat, 10, coat + 1, 0, Lag{}});
  }
  const LagNetwork network(project);
  Windows windows(network);
  REQUIRE(windows.propagate());
  Construction construction(project, network, windows, kNoStop);
  Random random(1);
  // All first coats before all second ones: what a crowded shop would start with.
  REQUIRE(construction.run({{0, 10, 1, 11, 2, 12}, false, 50}, random));
  CHECK(own::broken_rules(project, StartTimes{construction.board().starts()}) ==
        std::vector<std::string>{});
}
