#include "scheduling/usable_capacity.h"

#include <catch2/catch.hpp>

using namespace coatwright;

namespace {

/// A bench that work of these lengths uses, in days of 9 hours.
Project days_of_nine(std::vector<Tick> lengths, int benches) {
  Project project;
  project.horizon = 240;
  project.resources.push_back({"bench", {{0, benches}}});
  for (const Tick length : lengths) {
    project.start_sets.emplace_back();
    for (Tick day = 0; day < 10; ++day) {
      project.start_sets.back().spans.push_back({24 * day + 8, 24 * day + 17 - length});
    }
    const int set = static_cast<int>(project.start_sets.size()) - 1;
    project.activities.push_back({"work", length, {{0, 1, 0, length}}, set});
  }
  return project;
}

UsableCapacity usable(const Project& project) {
  return UsableCapacity(project, pool_of(project, 0));
}

}  // namespace

// By hand: of 9 hours, work of 2 fills 8, work of 4 fills 8, work of 4 and 5 fills 9.
TEST_CASE("A day gives what whole pieces of work fill of it", "[scheduling]") {
  CHECK(usable(days_of_nine({2, 4}, 1)).between(0, 24) == 8);
  CHECK(usable(days_of_nine({4, 5}, 1)).between(0, 24) == 9);
  CHECK(usable(days_of_nine({4}, 3)).between(0, 48) == 2 * 3 * 8);
  CHECK(usable(days_of_nine({4}, 1)).between(10, 17) == 4);
  CHECK(usable(days_of_nine({4}, 1)).between(17, 32) == 0);
}

TEST_CASE("The moment by which so much is given is the first", "[scheduling]") {
  const UsableCapacity bench = usable(days_of_nine({4}, 1));
  CHECK(bench.reached(0, 4) == 12);
  CHECK(bench.reached(0, 8) == 16);
  CHECK(bench.reached(0, 9) == 24 + 12);
  CHECK(bench.reached(0, 10 * 8) == 9 * 24 + 16);
  CHECK(bench.reached(0, 10 * 8 + 1) == kNeverTick);
}

TEST_CASE("A rack gives all the time, for what lies there is of any length", "[scheduling]") {
  Project project = days_of_nine({4}, 2);
  project.holds.push_back({0, 1, 0, 4, std::nullopt, 0, Lag{30}});
  CHECK(usable(project).between(0, 48) == 96);
}
