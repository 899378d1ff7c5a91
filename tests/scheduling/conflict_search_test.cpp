#include "scheduling/conflict_search.h"

#include <algorithm>

#include <catch2/catch.hpp>

using namespace coatwright;

namespace {

Project one_place(std::vector<Tick> lengths, Tick horizon) {
  Project project;
  project.horizon = horizon;
  project.start_sets.push_back({{{0, horizon}}});
  project.resources.push_back({"place", {{0, 1}}});
  for (const Tick length : lengths) {
    project.activities.push_back({"work", length, {{0, 1, 0, length}}, 0});
  }
  return project;
}

ProofResult search(const Project& project,
                   CostLimit limit,
                   const std::vector<std::optional<Tick>>& fixed = {},
                   std::int64_t nodes = 100'000,
                   const std::function<bool()>& stop = {}) {
  SearchTables tables(project);
  return search_within(tables, limit, fixed, {}, nodes, 1, stop);
}

}  // namespace

TEST_CASE("Work at one place ends no sooner than its lengths together", "[scheduling]") {
  const Project project = one_place({3, 4, 5}, 100);
  const ProofResult found = search(project, {.end = 12});
  REQUIRE(found.outcome == ProofOutcome::kFound);
  CHECK(cost_of(project, found.schedule).end == 12);
  CHECK(search(project, {.end = 11}).outcome == ProofOutcome::kNone);
}

// EVIDENCE: [smith1956] the weighted shortest processing time rule on one machine; with due dates
// at 0 the least weighted lateness is that of the order by length over weight.
TEST_CASE("The least weighted lateness is that of the known order", "[scheduling]") {
  Project project = one_place({6, 2, 4, 3}, 60);
  const int weights[] = {3, 4, 1, 3};
  for (int i = 0; i < 4; ++i) {
    project.jobs.push_back({"job", {i}, 0, weights[i]});
  }
  // By length over weight: 2/4, 3/3, 6/3, 4/1; ends 2, 5, 11, 15.
  constexpr std::int64_t kLeast = 2 * 4 + 5 * 3 + 11 * 3 + 15 * 1;
  CHECK(search(project, {.lateness = kLeast}).outcome == ProofOutcome::kFound);
  CHECK(search(project, {.lateness = kLeast - 1}).outcome == ProofOutcome::kNone);
}

// EVIDENCE: [smith1956] past 0 the overrun is the weighted sum of ends, least in the known order;
// past 5 all 24 orders are tried.
TEST_CASE("An overrun past a moment is kept to", "[scheduling]") {
  Project project = one_place({6, 2, 4, 3}, 60);
  const int weights[] = {3, 4, 1, 3};
  const Tick lengths[] = {6, 2, 4, 3};
  for (int i = 0; i < 4; ++i) {
    project.jobs.push_back({"job", {i}, kNeverTick, weights[i]});
  }
  for (const Tick past : {0, 5}) {
    std::vector<int> order = {0, 1, 2, 3};
    std::int64_t least = std::numeric_limits<std::int64_t>::max();
    do {
      std::int64_t sum = 0;
      Tick end = 0;
      for (const int job : order) {
        end += lengths[job];
        sum += std::int64_t{weights[job]} * std::max(0, end - past);
      }
      least = std::min(least, sum);
    } while (std::next_permutation(order.begin(), order.end()));
    CAPTURE(past, least);
    CHECK((past != 0 || least == 2 * 4 + 5 * 3 + 11 * 3 + 15 * 1));
    CHECK(search(project, {.overrun = Overrun{past, least}}).outcome == ProofOutcome::kFound);
    CHECK(search(project, {.overrun = Overrun{past, least - 1}}).outcome == ProofOutcome::kNone);
  }
}

TEST_CASE("A place on the rack is taken until the next work begins", "[scheduling]") {
  // Two coats of 2, each followed by work of 1 at least 5 later, and a rack of one place.
  Project project;
  project.horizon = 60;
  project.start_sets.push_back({{{0, 60}}});
  project.resources.push_back({"rack", {{0, 1}}});
  for (int i = 0; i < 2; ++i) {
    const int coat = static_cast<int>(project.activities.size());
    project.activities.push_back({"coat", 2, {}, 0});
    project.activities.push_back({"next", 1, {}, 0});
    project.min_lags.push_back({coat, coat + 1, Lag{7}});
    project.holds.push_back({0, 1, coat, 2, coat + 1, 0, Lag{}});
  }
  // The second coat may be laid while the first dries, and goes to the rack when that leaves it.
  CHECK(search(project, {.end = 13}).outcome == ProofOutcome::kFound);
  CHECK(search(project, {.end = 12}).outcome == ProofOutcome::kNone);
}

TEST_CASE("A tightened search goes on from what it learned", "[scheduling]") {
  const Project project = one_place({3, 4, 5, 6, 7}, 100);
  SearchTables tables(project);
  ConflictSearch search(tables, {.end = 60}, {}, {}, 1);
  REQUIRE(search.run(10'000, {}) == ProofOutcome::kFound);
  search.tighten({.end = 25});
  REQUIRE(search.run(10'000, {}) == ProofOutcome::kFound);
  CHECK(cost_of(project, search.found()).end == 25);
  search.tighten({.end = 24});
  CHECK(search.run(10'000, {}) == ProofOutcome::kNone);
}

TEST_CASE("A search that may not go on says so", "[scheduling]") {
  const Project project = one_place({3, 4, 5, 6, 7, 8, 9}, 100);
  CHECK(search(project, {.end = 42}, {}, 0).outcome == ProofOutcome::kStopped);
  CHECK(search(project, {.end = 42}, {}, 1000, [] { return true; }).outcome ==
        ProofOutcome::kStopped);
}

TEST_CASE("Starts that are fixed are kept", "[scheduling]") {
  const Project project = one_place({3, 4, 5}, 100);
  const ProofResult found = search(project, {.end = 14}, {Tick{4}, std::nullopt, std::nullopt});
  REQUIRE(found.outcome == ProofOutcome::kFound);
  CHECK(found.schedule.starts[0] == 4);
  CHECK(search(project, {.end = 13}, {Tick{2}, std::nullopt, std::nullopt}).outcome ==
        ProofOutcome::kNone);
}

TEST_CASE("A search that has decided nothing yet can be tightened", "[scheduling]") {
  const Project project = one_place({3, 4, 5}, 100);
  SearchTables tables(project);
  ConflictSearch search(tables, {}, {}, {}, 1);
  search.tighten({.end = 12});
  CHECK(search.run(10'000, {}) == ProofOutcome::kFound);
  search.tighten({.end = 11});
  search.tighten({.end = 10});
  CHECK(search.run(10'000, {}) == ProofOutcome::kNone);
}

TEST_CASE("Fixed starts that an exclusion keeps apart are refuted", "[scheduling]") {
  Project project = one_place({}, 100);
  project.activities = {{"sand", 4, {}, 0}, {"coat", 4, {}, 0}};
  project.exclusions.push_back({"dust", {{0, 0, Lag{4}}}, {{1, 0, Lag{10}}}});
  CHECK(search(project, {}, {Tick{8}, Tick{0}}).outcome == ProofOutcome::kNone);
  CHECK(search(project, {}, {Tick{10}, Tick{0}}).outcome == ProofOutcome::kFound);
}
