#include "scheduling/priority_rules.h"

#include <catch2/catch.hpp>

#include "scheduling/solver.h"

using namespace coatwright;

namespace {

/// Two activities; the first job is left without any, the last two share one.
Project with_idle_jobs() {
  Project project;
  project.horizon = 100;
  project.start_sets.push_back({{{0, 100}}});
  project.resources.push_back({"place", {{0, 1}}});
  for (const Tick length : {4, 6}) {
    project.activities.push_back({"work", length, {{0, 1, 0, length}}, 0});
  }
  project.jobs = {{"none", {}, 5, 1}, {"all", {0, 1}, 12, 2}, {"late", {1}, 3, 1}, {"idle", {}}};
  return project;
}

}  // namespace

TEST_CASE("A job without activities of its own has a number too", "[scheduling]") {
  const Project project = with_idle_jobs();
  const std::vector<int> groups = groups_of(project, LagNetwork(project));
  REQUIRE(groups.size() == 2);
  CHECK(group_count(project, groups) == project.jobs.size());
}

TEST_CASE("Jobs without activities change nothing", "[scheduling]") {
  // By hand: the second first is 3 late, and all end at 10; the other order is 7 late.
  const SearchResult result = solve(with_idle_jobs(), {2000, 1, {}});
  REQUIRE(result.schedule);
  CHECK(result.cost.lateness == 3);
  CHECK(result.cost.end == 10);
  CHECK(result.stopped_by == StoppedBy::kProof);
}
