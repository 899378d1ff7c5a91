#include "scheduling/divided_search.h"

#include <atomic>
#include <thread>

#include <catch2/catch.hpp>

#include "own_large_shop.h"
#include "own_schedule_checker.h"
#include "scheduling/solver.h"

using namespace coatwright;

namespace {

/// 62 pieces, 310 steps: so many that the search has two lanes.
Project many_pieces() {
  return own::large_shop(62, 2, 60);
}

SearchResult solved(const Project& project, std::int64_t nodes) {
  SearchLimits limits;
  limits.nodes = nodes;
  return solve(project, limits);
}

}  // namespace

TEST_CASE("Two lanes on two threads find the same each time", "[scheduling]") {
  const Project project = many_pieces();
  const SearchResult one = solved(project, 12'000);
  const SearchResult other = solved(project, 12'000);
  REQUIRE(one.schedule);
  REQUIRE(other.schedule);
  CHECK(one.schedule->starts == other.schedule->starts);
  CHECK(one.nodes == other.nodes);
  CHECK(own::broken_rules(project, *one.schedule).empty());
  CHECK(one.end_bound <= one.cost.end);
}

TEST_CASE("What the lanes share keeps the rules and gets no worse", "[scheduling]") {
  const Project project = many_pieces();
  const LagNetwork network(project);
  Windows windows(network);
  REQUIRE(windows.propagate());
  const auto search = DividedSearch::of(project, network, windows, 1, {});
  REQUIRE(search);
  REQUIRE(search->build(8'000));
  Incumbent best;
  search->share(best);
  REQUIRE(best.schedule);
  ProjectCost before = best.cost;
  for (int round = 0; round < 3; ++round) {
    std::thread beside([&] { search->run(1, 800, 0); });
    search->run(0, 800, 0);
    beside.join();
    search->share(best);
    CHECK(best.cost <= before);
    CHECK(own::broken_rules(project, *best.schedule).empty());
    before = best.cost;
  }
  CHECK(search->nodes() > 8'000);
}

TEST_CASE("A clock that stops the search stops both lanes, and is asked on one thread",
          "[scheduling]") {
  const std::thread::id caller = std::this_thread::get_id();
  std::atomic<int> asked = 0;
  std::atomic<bool> is_asked_elsewhere = false;
  SearchLimits limits;
  limits.nodes = 1'000'000'000;
  limits.stop = [&] {
    if (std::this_thread::get_id() != caller) {
      is_asked_elsewhere = true;
    }
    return ++asked > 400;
  };
  const SearchResult result = solve(many_pieces(), limits);
  CHECK((result.stopped_by == StoppedBy::kClock || result.stopped_by == StoppedBy::kProof));
  REQUIRE(result.schedule);
  CHECK_FALSE(is_asked_elsewhere);
}
