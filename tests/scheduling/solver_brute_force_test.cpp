#include <catch2/catch.hpp>

#include "own_brute_force.h"
#include "own_dusty_projects.h"
#include "own_projects.h"
#include "own_schedule_checker.h"
#include "scheduling/solver.h"

using namespace coatwright;

// solve() against the best of all schedules, found by trying them with code that shares nothing
// with it (own_brute_force.h), on drawn projects (own_projects.h).

namespace {

/// How the searches ended.
struct Endings {
  int feasible = 0;
  int infeasible = 0;
  int unproven = 0;
};

/// What is said of a schedule is true of it.
void check_schedule(const Project& project, const SearchResult& result) {
  CHECK(own::broken_rules(project, *result.schedule) == std::vector<std::string>{});
  const own::Cost cost = own::cost_by_hand(project, *result.schedule);
  CHECK(result.cost.lateness == cost.lateness);
  CHECK(result.cost.end == cost.end);
  CHECK_FALSE(result.infeasible);
  CHECK_FALSE(result.no_place);
}

void compare_infeasible(const Project& project, const SearchResult& result, Endings& endings) {
  ++endings.infeasible;
  CHECK_FALSE(result.schedule);
  if (result.infeasible) {
    CHECK(result.stopped_by == StoppedBy::kProof);
  } else {
    ++endings.unproven;
  }
  if (result.no_place) {
    CHECK(result.no_place->activity < static_cast<int>(project.activities.size()));
  }
}

void compare_feasible(const Project& project,
                      const StartTimes& best,
                      const SearchResult& result,
                      Endings& endings) {
  ++endings.feasible;
  const own::Cost least = own::cost_by_hand(project, best);
  const auto soonest = own::best_by_brute_force(project, own::Aim::kEnd);
  CHECK_FALSE(result.infeasible);
  CHECK(result.lateness_bound <= least.lateness);
  CHECK(result.end_bound <= own::cost_by_hand(project, *soonest).end);
  CHECK(result.end_bound_no_later <= least.end);
  if (result.schedule) {
    check_schedule(project, result);
    CHECK_FALSE(own::cost_by_hand(project, *result.schedule) < least);
  }
  if (result.stopped_by == StoppedBy::kProof) {
    REQUIRE(result.schedule);
    CHECK(own::cost_by_hand(project, *result.schedule) == least);
    CHECK(result.end_bound_no_later == least.end);
  } else {
    ++endings.unproven;
  }
}

Endings compare_seeds(int first, int last) {
  Endings endings;
  for (int seed = first; seed <= last; ++seed) {
    INFO("seed " << seed);
    const Project project = seed % 3 == 0 ? own::dusty_project(static_cast<std::uint64_t>(seed))
                                          : own::random_project(static_cast<std::uint64_t>(seed));
    const SearchResult result = solve(project, {});
    const auto best = own::best_by_brute_force(project, own::Aim::kLatenessThenEnd);
    if (best) {
      compare_feasible(project, *best, result, endings);
    } else {
      compare_infeasible(project, result, endings);
    }
  }
  return endings;
}

/// Nearly every tiny project is settled within the usual budget.
void check_endings(const Endings& endings) {
  INFO(endings.feasible << " feasible, " << endings.infeasible << " infeasible, "
                        << endings.unproven << " unproven");
  CHECK(2 * endings.feasible > endings.infeasible);
  CHECK(endings.infeasible > 0);
  CHECK(endings.unproven * 100 <= endings.feasible + endings.infeasible);
}

}  // namespace

TEST_CASE("The best schedule is the best of all", "[scheduling]") {
  check_endings(compare_seeds(301, 450));
}

TEST_CASE("The best schedule is the best of all, on many more", "[.long]") {
  check_endings(compare_seeds(1001, 6000));
}

// Consistency check: a search that is repeated repeats its answer.
TEST_CASE("The same seed gives the same schedule", "[scheduling]") {
  for (int seed = 1; seed <= 40; ++seed) {
    INFO("seed " << seed);
    const Project project = own::random_project(static_cast<std::uint64_t>(seed));
    const SearchResult one = solve(project, {.nodes = 200, .seed = 7});
    const SearchResult other = solve(project, {.nodes = 200, .seed = 7});
    REQUIRE(one.schedule.has_value() == other.schedule.has_value());
    CHECK(one.nodes == other.nodes);
    if (one.schedule) {
      CHECK(one.schedule->starts == other.schedule->starts);
    }
  }
}

TEST_CASE("A small budget breaks no rule and no bound", "[scheduling]") {
  int found = 0;
  for (int seed = 1; seed <= 150; ++seed) {
    INFO("seed " << seed);
    const Project project = own::random_project(static_cast<std::uint64_t>(seed));
    const SearchResult result = solve(project, {.nodes = 10, .seed = 3});
    if (result.schedule) {
      ++found;
      check_schedule(project, result);
      CHECK(result.lateness_bound <= result.cost.lateness);
      CHECK(result.end_bound <= result.cost.end);
      CHECK(result.end_bound_no_later <= result.cost.end);
    }
  }
  CHECK(found > 0);
}

TEST_CASE("A schedule to start from changes nothing in what is best", "[scheduling]") {
  for (int seed = 1; seed <= 60; ++seed) {
    INFO("seed " << seed);
    const Project project = own::random_project(static_cast<std::uint64_t>(seed));
    const auto best = own::best_by_brute_force(project, own::Aim::kLatenessThenEnd);
    const StartTimes nowhere{std::vector<Tick>(project.activities.size(), 0)};
    for (const StartTimes& start_from : {nowhere, best.value_or(nowhere)}) {
      const SearchResult result = solve(project, {}, &start_from);
      if (result.stopped_by == StoppedBy::kProof) {
        REQUIRE(result.schedule.has_value() == best.has_value());
        CHECK((!best ||
               own::cost_by_hand(project, *result.schedule) == own::cost_by_hand(project, *best)));
      }
    }
  }
}
