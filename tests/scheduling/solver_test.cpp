#include "scheduling/solver.h"

#include <catch2/catch.hpp>

#include "own_brute_force.h"
#include "own_projects.h"
#include "own_schedule_checker.h"

using namespace coatwright;

// Checked against: every schedule of each project, tried by separate code.
TEST_CASE("The solver's answer is that of trying every schedule", "[scheduling]") {
  int feasible = 0;
  constexpr int kProjects = 300;
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
