#include "scheduling/windows.h"

#include <catch2/catch.hpp>

#include "own_projects.h"
#include "own_schedule_checker.h"

using namespace coatwright;

namespace {

/// Earliest starts by trying every tick of every activity again until nothing changes.
std::vector<Tick> earliest_by_trial(const Project& project) {
  std::vector<Tick> starts(project.activities.size(), 0);
  const auto is_allowed = [&](std::size_t i) {
    bool in_set = false;
    for (const StartSpan& span : project.start_sets[project.activities[i].starts].spans) {
      in_set = in_set || (span.first <= starts[i] && starts[i] <= span.last);
    }
    for (const MinLag& min : project.min_lags) {
      in_set = in_set && (min.to != static_cast<int>(i) ||
                          starts[i] >= own::moment_after(min.lag, starts[min.from]));
    }
    for (const MaxLag& max : project.max_lags) {
      in_set = in_set && (max.from != static_cast<int>(i) ||
                          starts[max.to] <= own::moment_after(max.lag, starts[i]));
    }
    return in_set && starts[i] % project.grain == 0;
  };
  bool moves = true;
  while (moves) {
    moves = false;
    for (std::size_t i = 0; i < starts.size(); ++i) {
      while (!is_allowed(i)) {
        moves = true;
        if (++starts[i] > project.horizon) {
          return {};
        }
      }
    }
  }
  return starts;
}

}  // namespace

// Checked against: starts raised tick by tick, by the plain reading of each lag.
TEST_CASE("Windows open where trial of every tick opens them", "[scheduling]") {
  int feasible = 0;
  constexpr int kProjects = 400;
  for (int seed = 0; seed < kProjects; ++seed) {
    CAPTURE(seed);
    const Project project = own::random_project(static_cast<std::uint64_t>(seed));
    const LagNetwork network(project);
    Windows windows(network);
    const std::vector<Tick> expected = earliest_by_trial(project);
    const bool holds = windows.propagate();
    CHECK(holds == !expected.empty());
    if (!holds || expected.empty()) {
      continue;
    }
    ++feasible;
    for (int i = 0; i < network.count(); ++i) {
      CHECK(windows.low(i) == expected[i]);
      // The earliest starts of all keep the lags, so none closes before its own.
      CHECK(windows.high(i) >= windows.low(i));
    }
  }
  CHECK(feasible > kProjects / 3);
  CHECK(feasible < kProjects);
}

TEST_CASE("A window that rises takes others with it, and one that cannot says so", "[scheduling]") {
  Project project;
  project.horizon = 100;
  project.start_sets.push_back({{{0, 100}}});
  project.activities.assign(3, {"work", 5, {}, 0});
  project.min_lags.push_back({0, 1, Lag{10}});
  project.max_lags.push_back({0, 1, Lag{20}});
  project.min_lags.push_back({1, 2, Lag{30}});
  const LagNetwork network(project);
  Windows windows(network);
  REQUIRE(windows.propagate());
  CHECK(windows.low(2) == 40);
  CHECK(windows.high(0) == 60);
  REQUIRE(windows.raise(1, 50));
  CHECK(windows.low(0) == 30);
  CHECK(windows.low(2) == 80);
  REQUIRE(windows.lower(0, 40));
  CHECK(windows.high(1) == 60);
  CHECK_FALSE(windows.raise(2, 101));
}
