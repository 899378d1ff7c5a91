#include "scheduling/bound_raising.h"

#include <catch2/catch.hpp>

#include "own_brute_force.h"
#include "own_dusty_projects.h"
#include "own_schedule_checker.h"

using namespace coatwright;

// Checked against: every schedule of a project, tried by separate code. The bounds begin at
// nothing, and the best schedule with one that is as late as can be.
TEST_CASE("Bounds that are asked for rise to the best schedule, and not above", "[scheduling]") {
  int feasible = 0;
  for (int seed = 0; seed < 80; ++seed) {
    CAPTURE(seed);
    const Project project = own::dusty_project(static_cast<std::uint64_t>(seed));
    const auto least = own::best_by_brute_force(project, own::Aim::kLatenessThenEnd);
    if (!least) {
      continue;
    }
    const own::Cost cost = own::cost_by_hand(project, *least);
    SearchTables tables(project);
    const ProofResult any = search_within(tables, {}, {}, {}, 10'000, 5, {});
    REQUIRE(any.outcome == ProofOutcome::kFound);
    Incumbent best;
    best.offer(project, any.schedule);
    ProvenBounds bounds;
    const std::function<bool()> never;
    BoundRaising raising(tables, 1, never);
    for (int run = 0; run < 40; ++run) {
      raising.run(2'000, 100'000, bounds, best);
      CHECK(bounds.lateness <= cost.lateness);
      CHECK(bounds.end <= cost.end);
    }
    ++feasible;
    CHECK(own::broken_rules(project, *best.schedule) == std::vector<std::string>{});
    CHECK(best.cost.lateness == cost.lateness);
    CHECK(bounds.lateness == cost.lateness);
    CHECK(best.cost.end == cost.end);
    CHECK(bounds.end == cost.end);
  }
  CHECK(feasible > 30);
}
