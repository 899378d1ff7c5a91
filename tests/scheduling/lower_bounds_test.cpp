#include "scheduling/lower_bounds.h"

#include <catch2/catch.hpp>

#include "own_brute_force.h"
#include "own_dusty_projects.h"
#include "own_projects.h"
#include "own_schedule_checker.h"

using namespace coatwright;

namespace {

Tick end_bound(const Project& project) {
  const LagNetwork network(project);
  Windows windows(network);
  REQUIRE(windows.propagate());
  return LowerBounds(project, network, windows).end_bound(project.horizon, {});
}

struct Met {
  int feasible = 0;
  int end = 0;
  int lateness = 0;
};

/// Checked against: every schedule of a project, tried by separate code.
void compare_bounds(const Project& project, Met& met) {
  const auto best = own::best_by_brute_force(project, own::Aim::kLatenessThenEnd);
  if (!best) {
    return;
  }
  ++met.feasible;
  const auto soonest = own::best_by_brute_force(project, own::Aim::kEnd);
  const LagNetwork network(project);
  Windows windows(network);
  REQUIRE(windows.propagate());
  const LowerBounds bounds(project, network, windows);
  const Tick end = own::cost_by_hand(project, *soonest).end;
  const std::int64_t lateness = own::cost_by_hand(project, *best).lateness;
  const Tick found = bounds.end_bound(2 * project.horizon, {});
  CHECK(found <= end);
  CHECK(bounds.lateness_bound() <= lateness);
  met.end += found == end ? 1 : 0;
  met.lateness += bounds.lateness_bound() == lateness ? 1 : 0;
}

}  // namespace

TEST_CASE("No schedule beats the bounds", "[scheduling]") {
  Met met;
  for (int seed = 300; seed < 450; ++seed) {
    CAPTURE(seed);
    compare_bounds(own::random_project(static_cast<std::uint64_t>(seed)), met);
  }
  CHECK(met.end > met.feasible / 2);
  CHECK(met.lateness > met.feasible / 2);
}

TEST_CASE("No schedule beats the bounds where exclusions bind", "[scheduling]") {
  Met met;
  for (int seed = 0; seed < 100; ++seed) {
    CAPTURE(seed);
    compare_bounds(own::dusty_project(static_cast<std::uint64_t>(seed)), met);
  }
  CHECK(met.end > met.feasible / 3);
}

TEST_CASE("No schedule beats the bounds, on many more", "[.long]") {
  Met met;
  for (int seed = 1000; seed < 4000; ++seed) {
    CAPTURE(seed);
    compare_bounds(own::dusty_project(static_cast<std::uint64_t>(seed)), met);
    compare_bounds(own::random_project(static_cast<std::uint64_t>(seed)), met);
  }
  CHECK(met.feasible > 0);
}

TEST_CASE("Work that must not be split over the night fills days less", "[scheduling]") {
  // Days of 9 of 24 hours, work of 5 hours each: one a day, and not 9 hours of it.
  Project project;
  project.horizon = 24 * 10;
  project.start_sets.emplace_back();
  for (Tick day = 0; day < 10; ++day) {
    project.start_sets[0].spans.push_back({24 * day, 24 * day + 4});
  }
  project.resources.push_back({"bench", {{0, 1}}});
  project.activities.assign(4, {"sand", 5, {{0, 1, 0, 5}}, 0});
  CHECK(end_bound(project) == 24 * 3 + 5);
}

TEST_CASE("What a rack must hold at least bounds the end", "[scheduling]") {
  // Three coats that each lie on one rack for 20 before the next work of 1: by hand 3 * 20 + 2 + 1
  // with the coats of 2 laid while the rack is taken.
  Project project;
  project.horizon = 200;
  project.start_sets.push_back({{{0, 200}}});
  project.resources.push_back({"rack", {{0, 1}}});
  for (int i = 0; i < 3; ++i) {
    project.activities.push_back({"coat", 2, {}, 0});
    project.activities.push_back({"next", 1, {}, 0});
    project.min_lags.push_back({2 * i, 2 * i + 1, Lag{22}});
    project.holds.push_back({0, 1, 2 * i, 2, 2 * i + 1, 0, Lag{}});
  }
  CHECK(end_bound(project) == 2 + 3 * 20 + 1);
}

// EVIDENCE: [smith1956] at equal weights the sum of ends is least in the order of lengths.
TEST_CASE("Lateness on one place is bounded by the order of lengths", "[scheduling]") {
  Project project;
  project.horizon = 100;
  project.start_sets.push_back({{{0, 100}}});
  project.resources.push_back({"place", {{0, 1}}});
  for (const Tick length : {7, 3, 5}) {
    project.jobs.push_back({"job", {static_cast<int>(project.jobs.size())}, 0, 2});
    project.activities.push_back({"work", length, {{0, 1, 0, length}}, 0});
  }
  const LagNetwork network(project);
  Windows windows(network);
  REQUIRE(windows.propagate());
  CHECK(LowerBounds(project, network, windows).lateness_bound() == 2 * (3 + 8 + 15));
}
