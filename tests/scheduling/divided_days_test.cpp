#include "scheduling/divided_days.h"

#include <algorithm>

#include <catch2/catch.hpp>

#include "own_large_shop.h"

using namespace coatwright;

namespace {

std::optional<Project> divided(const Project& project) {
  const LagNetwork network(project);
  Windows windows(network);
  REQUIRE(windows.propagate());
  return with_divided_days(project, network, windows);
}

/// The starts of an activity that lie on a day.
std::vector<StartSpan> starts_on(const Project& project, int activity, int day) {
  std::vector<StartSpan> starts;
  for (const StartSpan& span :
       project.start_sets[static_cast<std::size_t>(project.activities[activity].starts)].spans) {
    if (span.first / 1440 == day) {
      starts.push_back(span);
    }
  }
  return starts;
}

}  // namespace

// By hand: of 10 pieces, 20 abrasions of 30 min on 2 benches take 300 min, 30 coats of 15 min on
// one spray place 450 min. So the 480 min of a day are shared as 192 to 288; 192 min are 6.4 units
// of 30 min, which is more than 6 1/3 and makes 7: until 11:30. One more abrasion may begin then:
// all end by 12:00.
TEST_CASE("A day is shared as the work on both sides asks for", "[scheduling]") {
  const Project project = own::large_shop(10, 2, 20);
  const auto result = divided(project);
  REQUIRE(result);
  const int coat = 0;
  const int abrasion = 1;
  CHECK(starts_on(*result, abrasion, 5) ==
        std::vector<StartSpan>{{5 * 1440 + 480, 5 * 1440 + 690}});
  CHECK(starts_on(*result, coat, 5) == std::vector<StartSpan>{{5 * 1440 + 690, 5 * 1440 + 705},
                                                              {5 * 1440 + 780, 5 * 1440 + 1005}});
}

TEST_CASE("The first days are left whole", "[scheduling]") {
  const Project project = own::large_shop(10, 2, 20);
  const auto result = divided(project);
  REQUIRE(result);
  for (const int day : {0, 1, 2}) {
    for (const int activity : {0, 1}) {
      CHECK(starts_on(*result, activity, day) == starts_on(project, activity, day));
    }
  }
}

TEST_CASE("Starts of divided days are starts of the project, and nothing else is changed",
          "[scheduling]") {
  const Project project = own::large_shop(12, 3, 30);
  const auto result = divided(project);
  REQUIRE(result);
  REQUIRE(result->activities.size() == project.activities.size());
  for (std::size_t i = 0; i < project.activities.size(); ++i) {
    const int activity = static_cast<int>(i);
    CHECK(result->activities[i].length == project.activities[i].length);
    for (int day = 0; day < 30; ++day) {
      const auto whole = starts_on(project, activity, day);
      for (const StartSpan& part : starts_on(*result, activity, day)) {
        CHECK(part.first % project.grain == 0);
        CHECK(std::any_of(whole.begin(), whole.end(), [&](const StartSpan& span) {
          return span.first <= part.first && part.last <= span.last;
        }));
      }
    }
  }
  CHECK(result->min_lags.size() == project.min_lags.size());
  CHECK(result->horizon == project.horizon);
}

TEST_CASE("Without dust, or with little work that brings any, no day is divided", "[scheduling]") {
  Project clean = own::large_shop(10, 2, 20);
  clean.exclusions.clear();
  CHECK_FALSE(divided(clean));
  CHECK_FALSE(divided(own::large_shop(4, 2, 20)));
}

TEST_CASE("A film that lasts over the night, or for ever, is no reason to divide", "[scheduling]") {
  Project slow = own::large_shop(10, 2, 20);
  for (Stretch& film : slow.exclusions.front().other_side) {
    film.until = Lag{10 * 1440};
  }
  CHECK_FALSE(divided(slow));
  Project never = own::large_shop(10, 2, 20);
  never.exclusions.front().other_side.front().until = Lag{kNeverTick};
  const auto result = divided(never);
  REQUIRE(result);
  CHECK(starts_on(*result, 1, 5) == starts_on(*divided(own::large_shop(10, 2, 20)), 1, 5));
}
