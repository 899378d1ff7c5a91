#include "scheduling/priced_bounds.h"

#include <catch2/catch.hpp>

#include "own_brute_force.h"
#include "own_dusty_projects.h"
#include "own_projects.h"
#include "own_schedule_checker.h"

using namespace coatwright;

namespace {

struct Raised {
  int feasible = 0;
  int end = 0;       ///< Bounds above those of energy.
  int no_later = 0;  ///< Those of schedules that are no later above those of all.
  int lateness = 0;
};

Tick priced_end(const Project& project,
                const LagNetwork& network,
                const Windows& windows,
                const LowerBounds& bounds,
                Tick bound) {
  EndPricing pricing(project, network, windows, bounds);
  pricing.run(1'000'000, 2 * project.horizon, {}, bound);
  return bound;
}

/// Checked against: every schedule of a project, tried by separate code.
void compare_priced(const Project& project, Raised& raised) {
  const auto best = own::best_by_brute_force(project, own::Aim::kLatenessThenEnd);
  if (!best) {
    return;
  }
  ++raised.feasible;
  const auto soonest = own::best_by_brute_force(project, own::Aim::kEnd);
  const own::Cost least = own::cost_by_hand(project, *best);
  const LagNetwork network(project);
  Windows windows(network);
  REQUIRE(windows.propagate());
  const LowerBounds bounds(project, network, windows);

  const Tick by_energy = bounds.end_bound(2 * project.horizon, {});
  const Tick end = priced_end(project, network, windows, bounds, by_energy);
  CHECK(end <= own::cost_by_hand(project, *soonest).end);
  raised.end += end > by_energy ? 1 : 0;

  const auto within = bounds.no_later_than(least.lateness);
  REQUIRE(within);
  const Tick no_later = priced_end(project, network, *within, bounds, end);
  CHECK(no_later <= least.end);
  CHECK(bounds.end_bound(*within, 2 * project.horizon, {}) <= least.end);
  raised.no_later += no_later > end ? 1 : 0;

  const std::int64_t known = 2 * least.lateness + 20;
  std::int64_t lateness = 0;
  LatenessPricing pricing(project, network, windows, bounds);
  pricing.run(300'000, known, {}, lateness);
  CHECK(lateness <= least.lateness);
  const auto wider = bounds.no_later_than(known);
  REQUIRE(wider);
  pricing.keep_within(*wider);
  pricing.run(100'000, known, {}, lateness);
  CHECK(lateness <= least.lateness);
  raised.lateness += lateness > bounds.lateness_bound() ? 1 : 0;
}

}  // namespace

TEST_CASE("No schedule beats the bounds that prices give", "[scheduling]") {
  Raised raised;
  for (int seed = 0; seed < 60; ++seed) {
    CAPTURE(seed);
    compare_priced(own::dusty_project(static_cast<std::uint64_t>(seed)), raised);
    compare_priced(own::random_project(static_cast<std::uint64_t>(seed)), raised);
  }
  INFO(raised.feasible << " feasible, raised " << raised.end << " ends, " << raised.no_later
                       << " ends no later, " << raised.lateness << " latenesses");
  CHECK(raised.end > raised.feasible / 20);
  CHECK(raised.no_later > 0);
  CHECK(raised.lateness > raised.feasible / 20);
}

TEST_CASE("No schedule beats the bounds that prices give, on many more", "[.long]") {
  Raised raised;
  for (int seed = 1000; seed < 4000; ++seed) {
    CAPTURE(seed);
    compare_priced(own::dusty_project(static_cast<std::uint64_t>(seed)), raised);
    compare_priced(own::random_project(static_cast<std::uint64_t>(seed)), raised);
  }
  CHECK(raised.feasible > 0);
}

// By hand: three coats each take a place for 2 and dry for 20, and then need a bench for 3. On one
// place and one bench the last is off the bench at 2 + 20 + 3 * 3, as the bench is behind.
TEST_CASE("Prices see that a bench comes after a place", "[scheduling]") {
  Project project;
  project.horizon = 40;
  project.start_sets.push_back({{{0, 40}}});
  project.resources = {{"place", {{0, 1}}}, {"bench", {{0, 1}}}};
  for (int i = 0; i < 3; ++i) {
    project.jobs.push_back({"job", {2 * i, 2 * i + 1}, 25, 1});
    project.activities.push_back({"coat", 2, {{0, 1, 0, 2}}, 0});
    project.activities.push_back({"next", 3, {{1, 1, 0, 3}}, 0});
    project.min_lags.push_back({2 * i, 2 * i + 1, Lag{22}});
  }
  const LagNetwork network(project);
  Windows windows(network);
  REQUIRE(windows.propagate());
  const LowerBounds bounds(project, network, windows);
  CHECK(priced_end(project, network, windows, bounds, 0) == 2 + 20 + 3 * 3);
  // Jobs end at 25, 28 and 31 then: late by 0, 3 and 6.
  LatenessPricing pricing(project, network, windows, bounds);
  std::int64_t lateness = 0;
  pricing.run(3'000'000, 9, {}, lateness);
  CHECK(lateness <= 9);
  CHECK(lateness >= 6);
}
