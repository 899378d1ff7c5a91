#include "scheduling/fewer_breaks.h"

#include <catch2/catch.hpp>

#include "own_brute_force.h"
#include "own_projects.h"
#include "own_schedule_checker.h"
#include "own_shops.h"
#include "scheduling/solver.h"
#include "scheduling/work_breaks.h"

using namespace coatwright;

// Checked against: breaks counted tick by tick, and the fewest among all schedules of least
// lateness and end, found by trying them (own_brute_force.h).

namespace {

using own::kDay;
using own::kOpen;
using own::kPeople;

int capacity_at(const Resource& resource, Tick tick) {
  int there = 0;
  for (const CapacityStep& step : resource.capacity) {
    there = step.at <= tick ? step.capacity : there;
  }
  return there;
}

/// Runs of idle ticks between two ticks at work, people there all the time, in which something
/// could have begun.
int breaks_by_hand(const Project& project, int people, const StartTimes& schedule) {
  std::vector<bool> is_busy(static_cast<std::size_t>(project.horizon) + 50, false);
  for (std::size_t i = 0; i < schedule.starts.size(); ++i) {
    for (Tick tick = 0; tick < project.activities[i].length; ++tick) {
      is_busy[static_cast<std::size_t>(schedule.starts[i] + tick)] = true;
    }
  }
  int breaks = 0;
  bool is_open = false;  // work came before, and people have been there since
  bool could_begin = false;
  for (std::size_t place = 0; place < is_busy.size(); ++place) {
    const Tick tick = static_cast<Tick>(place);
    if (is_busy[place]) {
      breaks += is_open && could_begin ? 1 : 0;
      is_open = true;
      could_begin = false;
    } else {
      is_open = is_open && capacity_at(project.resources[people], tick) > 0;
      could_begin = could_begin || tick % project.grain == 0;
    }
  }
  return breaks;
}

int fewest_breaks(const Project& project, int people) {
  own::BruteForce all(project, own::Aim::kLatenessThenEnd, {}, [&](const StartTimes& schedule) {
    return breaks_by_hand(project, people, schedule);
  });
  return breaks_by_hand(project, people, all.best().value());
}

const std::function<bool(const StartTimes&)> kAny = [](const StartTimes&) { return true; };

/// @return the schedule, checked to be as good as the one before and to keep every rule.
StartTimes drawn_together(const Project& project, int people, const StartTimes& before) {
  const StartTimes after = fewer_breaks(project, people, before, 100'000, kAny, {}).schedule;
  CHECK(own::broken_rules(project, after) == std::vector<std::string>{});
  CHECK_FALSE(own::cost_by_hand(project, before) < own::cost_by_hand(project, after));
  const int breaks = breaks_by_hand(project, people, after);
  const int breaks_before = breaks_by_hand(project, people, before);
  CHECK(WorkBreaks(project, people).count(before.starts) == breaks_before);
  CHECK(WorkBreaks(project, people).count(after.starts) == breaks);
  CHECK(breaks <= breaks_before);
  CHECK((breaks < breaks_before ||
         cost_of(project, after).sum_of_ends <= cost_of(project, before).sum_of_ends));
  return after;
}

/// Work that takes a person and a bench each, in three days.
class SmallShop {
 public:
  SmallShop(int people, int benches) {
    project_.horizon = 3 * kDay;
    project_.resources = {{"people", own::hours(people, project_.horizon)},
                          {"bench", {{0, benches}}}};
  }

  /// @return the activity. @param after what it waits for, and so long from its start.
  int add(Tick length, std::optional<std::pair<int, Tick>> after = std::nullopt) {
    const int place = static_cast<int>(project_.activities.size());
    StartSet set;
    for (Tick day = 0; day < project_.horizon; day += kDay) {
      set.spans.push_back({day, day + kOpen - length});
    }
    project_.start_sets.push_back(set);
    project_.activities.push_back({"", length, {{0, 1, 0, length}, {1, 1, 0, length}}, place});
    if (after) {
      project_.min_lags.push_back({after->first, place, Lag{after->second}});
    }
    return place;
  }
  /// It ends then at the latest, or is late.
  void due(int activity, Tick tick) { project_.jobs.push_back({"", {activity}, tick, 1}); }

  [[nodiscard]] const Project& project() const { return project_; }

 private:
  Project project_;
};

void check_fewest(const SmallShop& shop, const StartTimes& before, int expected) {
  const Project& project = shop.project();
  REQUIRE(own::broken_rules(project, before).empty());
  REQUIRE(fewest_breaks(project, 0) == expected);
  REQUIRE(breaks_by_hand(project, 0, before) > expected);
  CHECK(breaks_by_hand(project, 0, drawn_together(project, 0, before)) == expected);
}

}  // namespace

TEST_CASE("What need not begin the day waits for what ends it", "[scheduling]") {
  SmallShop shop(1, 1);
  const int coat = shop.add(1);
  shop.add(2, std::pair(coat, 12));
  const int last = shop.add(1, std::pair(coat, 16));
  shop.due(last, 17);
  check_fewest(shop, {{0, 12, 16}}, 0);
}

TEST_CASE("Another's work goes into a break", "[scheduling]") {
  SmallShop shop(2, 2);
  const int coat = shop.add(2);
  shop.add(1, std::pair(coat, 4));
  shop.add(2);
  shop.due(1, 5);
  check_fewest(shop, {{0, 4, 0}}, 0);  // the third fills the break instead of running beside
}

TEST_CASE("Work gives way to what fills a break", "[scheduling]") {
  SmallShop shop(1, 1);
  const int coat = shop.add(1);
  shop.add(1, std::pair(coat, 4));
  shop.add(2);
  shop.add(1);
  shop.due(1, 6);
  // The coat is put off by the third, which may come before it as well.
  check_fewest(shop, {{0, 4, 1, 12}}, 0);
}

TEST_CASE("What stands alone goes to another day", "[scheduling]") {
  SmallShop shop(1, 1);
  const int coat = shop.add(2);
  shop.add(3, std::pair(coat, 12));
  shop.add(1);
  shop.due(1, 15);
  check_fewest(shop, {{0, 12, 4}}, 0);
}

TEST_CASE("No schedule has more breaks than before, and most the fewest", "[scheduling]") {
  int compared = 0;
  int reached = 0;
  int before = 0;
  int after = 0;
  for (int seed = 1; seed <= 300; ++seed) {
    INFO("seed " << seed);
    const Project project = own::drawn_shop(seed);
    const SearchResult solved = solve(project, {});
    if (project.activities.size() > 6 || solved.stopped_by != StoppedBy::kProof ||
        !solved.schedule) {
      continue;
    }
    const int breaks =
        breaks_by_hand(project, kPeople, drawn_together(project, kPeople, *solved.schedule));
    ++compared;
    reached += breaks == fewest_breaks(project, kPeople) ? 1 : 0;
    before += breaks_by_hand(project, kPeople, *solved.schedule);
    after += breaks;
  }
  INFO(reached << " of " << compared << " have the fewest breaks; " << before << " before, "
               << after << " after");
  CHECK(compared > 100);
  CHECK(20 * reached >= 19 * compared);  // a local search: not always
  CHECK(4 * after < 3 * before);
}

TEST_CASE("Work is drawn together by all kinds of rules", "[scheduling]") {
  int fewer = 0;
  for (int seed = 1; seed <= 300; ++seed) {
    INFO("seed " << seed);
    const Project project = seed % 2 == 0 ? own::large_shop(seed)
                                          : own::random_project(static_cast<std::uint64_t>(seed));
    const int people = seed % 2 == 0 ? kPeople : 0;
    const SearchResult solved = solve(project, {.nodes = 1000});
    if (solved.schedule) {
      const StartTimes after = drawn_together(project, people, *solved.schedule);
      fewer += breaks_by_hand(project, people, after) <
               breaks_by_hand(project, people, *solved.schedule);
    }
  }
  CHECK(fewer > 30);
}

TEST_CASE("What may not be is left", "[scheduling]") {
  for (int seed = 1; seed <= 60; ++seed) {
    INFO("seed " << seed);
    const Project project = own::drawn_shop(seed);
    const SearchResult solved = solve(project, {.nodes = 200});
    REQUIRE(solved.schedule);
    const auto barred = [&](const StartTimes& schedule) {
      return schedule.starts[0] == solved.schedule->starts[0];
    };
    const FewerBreaks held = fewer_breaks(project, kPeople, *solved.schedule, 100'000, barred, {});
    CHECK(held.schedule.starts[0] == solved.schedule->starts[0]);
    const FewerBreaks none = fewer_breaks(project, kPeople, *solved.schedule, 0, kAny, {});
    CHECK(none.schedule.starts == solved.schedule->starts);
    const auto stop = [] { return true; };
    const FewerBreaks stopped =
        fewer_breaks(project, kPeople, *solved.schedule, 100'000, kAny, stop);
    CHECK(stopped.schedule.starts == solved.schedule->starts);
  }
}
