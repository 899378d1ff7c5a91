#include "scheduling/solver.h"

#include <catch2/catch.hpp>

#include "own_brute_force.h"
#include "own_projects.h"
#include "own_schedule_checker.h"

using namespace coatwright;

// Checked against: every schedule of each project, tried by separate code.
TEST_CASE("The solver's answer is that of trying every schedule", "[scheduling]") {
  int feasible = 0;
  constexpr int kProjects = 90;
  for (int seed = 0; seed < kProjects; ++seed) {
    CAPTURE(seed);
    const Project project = own::random_project(static_cast<std::uint64_t>(seed));
    const auto best = own::best_by_brute_force(project, own::Aim::kLatenessThenEnd);
    const SearchResult found = solve(project, {.nodes = 20'000, .seed = 1});
    REQUIRE(found.schedule.has_value() == best.has_value());
    REQUIRE(found.stopped_by == StoppedBy::kProof);
    CHECK(found.infeasible == !best);
    CHECK(found.no_place.has_value() == !best);
    if (!best) {
      continue;
    }
    ++feasible;
    CHECK(own::broken_rules(project, *found.schedule) == std::vector<std::string>{});
    CHECK(found.cost == cost_of(project, *found.schedule));
    const own::Cost least = own::cost_by_hand(project, *best);
    CHECK(found.cost.lateness == least.lateness);
    CHECK(found.cost.end == least.end);
    CHECK(found.lateness_bound == least.lateness);
    const auto soonest = own::best_by_brute_force(project, own::Aim::kEnd);
    CHECK(found.end_bound <= own::cost_by_hand(project, *soonest).end);
  }
  CHECK(feasible > kProjects / 3);
  CHECK(feasible < kProjects);
}

TEST_CASE("The same seed solves to the same schedule", "[scheduling]") {
  for (int seed = 500; seed < 510; ++seed) {
    const Project project = own::random_project(static_cast<std::uint64_t>(seed));
    const SearchResult first = solve(project, {.nodes = 3000, .seed = 5});
    const SearchResult again = solve(project, {.nodes = 3000, .seed = 5});
    REQUIRE(first.schedule.has_value() == again.schedule.has_value());
    CHECK(first.nodes == again.nodes);
    if (first.schedule) {
      CHECK(first.schedule->starts == again.schedule->starts);
    }
  }
}

TEST_CASE("A clock that has run out ends the solver, and is named", "[scheduling]") {
  Project project = own::random_project(3);
  int asked = 0;
  const SearchResult found = solve(project, {.stop = [&] {
                                     ++asked;
                                     return true;
                                   }});
  CHECK(asked > 0);
  CHECK(found.stopped_by == StoppedBy::kClock);
  CHECK_FALSE(found.infeasible);
}

TEST_CASE("A good schedule to start from is not lost, and a broken one only guides",
          "[scheduling]") {
  Project project;
  project.horizon = 50;
  project.start_sets.push_back({{{0, 50}}});
  project.resources.push_back({"place", {{0, 1}}});
  project.activities.assign(3, {"work", 5, {{0, 1, 0, 5}}, 0});
  const StartTimes good{{0, 5, 10}};
  const SearchResult kept = solve(project, {.nodes = 0}, &good);
  REQUIRE(kept.schedule.has_value());
  CHECK(kept.schedule->starts == good.starts);
  const StartTimes broken{{0, 2, 10}};
  CHECK_FALSE(solve(project, {.nodes = 0}, &broken).schedule.has_value());
  const SearchResult found = solve(project, {.nodes = 1000}, &broken);
  REQUIRE(found.schedule.has_value());
  CHECK(own::broken_rules(project, *found.schedule).empty());
  CHECK(found.cost.end == 15);
}

TEST_CASE("A project without activities is done at once", "[scheduling]") {
  const SearchResult found = solve(Project{}, {});
  REQUIRE(found.schedule.has_value());
  CHECK(found.stopped_by == StoppedBy::kProof);
  CHECK(found.cost.end == 0);
}
