#include "scheduling/improvement.h"

#include <catch2/catch.hpp>

#include "own_schedule_checker.h"
#include "scheduling/aiming.h"
#include "scheduling/neighbourhood_search.h"
#include "scheduling/proof.h"

using namespace coatwright;

namespace {

const std::function<bool()> kNoStop;

/// Chains of three, with holds on a rack of two places between them, and one bench.
Project chains(int count) {
  Random random(7);
  Project project;
  project.horizon = 4000;
  project.start_sets.push_back({{{0, 4000}}});
  project.resources = {{"bench", {{0, 1}}}, {"rack", {{0, 2}}}};
  for (int i = 0; i < count; ++i) {
    Job job{"job", {}, 40 + 30 * random.below(count), 1 + random.below(3)};
    for (int k = 0; k < 3; ++k) {
      const int id = static_cast<int>(project.activities.size());
      const Tick length = 4 + random.below(12);
      project.activities.push_back({"work", length, {{0, 1, 0, length}}, 0});
      job.activities.push_back(id);
      if (k > 0) {
        const Tick before = project.activities[id - 1].length;
        project.min_lags.push_back({id - 1, id, Lag{before + 5 + random.below(60)}});
        project.holds.push_back({1, 1, id - 1, before, id, 0, Lag{}});
      }
    }
    project.jobs.push_back(job);
  }
  return project;
}

/// A search with all that it needs.
struct Setting {
  explicit Setting(int count)
      : project(chains(count)), network(project), windows(network), tables(project) {
    REQUIRE(windows.propagate());
  }
  Project project;
  LagNetwork network;
  Windows windows;
  SearchTables tables;
};

bool keeps_all(const Project& project, const Incumbent& best) {
  return own::broken_rules(project, *best.schedule).empty();
}

}  // namespace

TEST_CASE("The same seed improves to the same schedule", "[scheduling]") {
  const Setting setting(8);
  Incumbent first;
  Improvement(setting.project, setting.network, setting.windows, 3, kNoStop).run(5000, first);
  Incumbent again;
  Improvement(setting.project, setting.network, setting.windows, 3, kNoStop).run(5000, again);
  REQUIRE(first.schedule.has_value());
  CHECK(first.schedule->starts == again.schedule->starts);
  CHECK(keeps_all(setting.project, first));
}

TEST_CASE("A schedule to begin with is tried first", "[scheduling]") {
  const Setting setting(8);
  Incumbent good;
  Improvement(setting.project, setting.network, setting.windows, 3, kNoStop).run(8000, good);
  Improvement from_good(setting.project, setting.network, setting.windows, 4, kNoStop);
  from_good.begin_with(good.schedule->starts);
  Incumbent best;
  from_good.run(1, best);
  REQUIRE(best.schedule.has_value());
  CHECK(best.cost.lateness <= good.cost.lateness);
}

TEST_CASE("Every way of searching on keeps the rules and is never worse", "[scheduling]") {
  Setting setting(10);
  Incumbent best;
  Improvement(setting.project, setting.network, setting.windows, 1, kNoStop).run(1, best);
  REQUIRE(best.schedule.has_value());
  const ProjectCost first = best.cost;
  NeighbourhoodSearch neighbourhoods(setting.tables, setting.network, 1, kNoStop);
  neighbourhoods.run(1200, 0, best);
  CHECK(neighbourhoods.nodes() >= 1200);
  CHECK(keeps_all(setting.project, best));
  CHECK(best.cost.lateness < first.lateness);
  const ProjectCost second = best.cost;
  ProvenBounds bounds;
  Aiming aiming(setting.tables, 1, kNoStop);
  aiming.run(600, bounds, best);
  CHECK(keeps_all(setting.project, best));
  CHECK(best.cost <= second);
  CHECK(bounds.lateness <= best.cost.lateness);
}

// EVIDENCE: [smith1956] the weighted shortest processing time rule: with due dates at 0 the least
// weighted lateness on one place is that of the order by length over weight.
TEST_CASE("A proof ends at the known optimum, and not before", "[scheduling]") {
  Project project;
  project.horizon = 60;
  project.start_sets.push_back({{{0, 60}}});
  project.resources.push_back({"place", {{0, 1}}});
  const Tick lengths[] = {6, 2, 4, 3};
  const int weights[] = {3, 4, 1, 3};
  for (int i = 0; i < 4; ++i) {
    project.activities.push_back({"work", lengths[i], {{0, 1, 0, lengths[i]}}, 0});
    project.jobs.push_back({"job", {i}, 0, weights[i]});
  }
  Incumbent best;
  ProvenBounds bounds;
  SearchTables tables(project);
  Proof proof(tables, 1, kNoStop);
  CHECK_FALSE(proof.run(1, bounds, best));
  REQUIRE(proof.run(100'000, bounds, best));
  CHECK(best.cost.lateness == 2 * 4 + 5 * 3 + 11 * 3 + 15 * 1);
  CHECK(bounds.lateness == best.cost.lateness);
  CHECK(best.cost.end == 15);
}
