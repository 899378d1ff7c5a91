#include "scheduling/solver.h"

#include <catch2/catch.hpp>

#include "scheduling/small_project.h"

using namespace coatwright;

// Checked against: all schedules of the project, tried one by one by separate code.
TEST_CASE("The solver's answer is that of trying every schedule", "[scheduling]") {
  int feasible = 0;
  for (std::uint64_t seed = 0; seed < 250; ++seed) {
    CAPTURE(seed);
    const Project project = small::random_project(seed);
    const small::Best best = small::best_of_all(project);
    const SearchResult found = solve(project, {.nodes = 20'000, .seed = 1});
    REQUIRE(found.schedule.has_value() == best.cost.has_value());
    REQUIRE(found.stopped_by == StoppedBy::kProof);
    CHECK(found.infeasible == !best.cost);
    if (found.schedule) {
      ++feasible;
      CHECK(small::keeps_all(project, *found.schedule));
      CHECK(found.cost == cost_of(project, *found.schedule));
      CHECK(found.cost.lateness == best.cost->lateness);
      CHECK(found.cost.end == best.cost->end);
      CHECK(found.cost.sum_of_ends >= best.cost->sum_of_ends);
      CHECK(found.lateness_bound == best.cost->lateness);
      CHECK(found.end_bound <= best.earliest_end);
    }
  }
  CHECK(feasible > 100);
  CHECK(feasible < 250);
}
