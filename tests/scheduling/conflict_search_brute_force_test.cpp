#include <catch2/catch.hpp>

#include "own_brute_force.h"
#include "own_projects.h"
#include "own_schedule_checker.h"
#include "scheduling/conflict_search.h"

using namespace coatwright;

// The search against schedules found by trying all of them, with code that shares nothing with it
// (own_brute_force.h), on drawn projects (own_projects.h).

namespace {

using FixedStarts = std::vector<std::optional<Tick>>;

constexpr std::int64_t kNodes = 20'000;

/// How often the search answered, and how often it gave up.
struct Answers {
  int found = 0;
  int none = 0;
  int stopped = 0;
};

/// Asks for a schedule within a limit, and checks the one that is found.
ProofOutcome ask(const Project& project,
                 const CostLimit& limit,
                 const FixedStarts& fixed,
                 Answers& answers) {
  SearchTables tables(project);
  const ProofResult result = search_within(tables, limit, fixed, {}, kNodes, 1, {});
  if (result.outcome == ProofOutcome::kStopped) {
    ++answers.stopped;
    return result.outcome;
  }
  if (result.outcome == ProofOutcome::kNone) {
    ++answers.none;
    return result.outcome;
  }
  ++answers.found;
  CHECK(own::broken_rules(project, result.schedule) == std::vector<std::string>{});
  const own::Cost cost = own::cost_by_hand(project, result.schedule);
  CHECK(cost.lateness <= limit.lateness);
  CHECK(cost.end <= limit.end);
  for (std::size_t i = 0; i < fixed.size(); ++i) {
    CHECK(result.schedule.starts[i] == fixed[i].value_or(result.schedule.starts[i]));
  }
  return result.outcome;
}

bool is_or_stopped(ProofOutcome outcome, ProofOutcome expected) {
  return outcome == expected || outcome == ProofOutcome::kStopped;
}

/// Limits at what brute force found, and one tick below.
void compare(const Project& project, const FixedStarts& fixed, Answers& answers) {
  using enum ProofOutcome;
  const auto best = own::best_by_brute_force(project, own::Aim::kLatenessThenEnd, fixed);
  if (!best) {
    CHECK(is_or_stopped(ask(project, {}, fixed, answers), kNone));
    return;
  }
  const own::Cost least = own::cost_by_hand(project, *best);
  const auto [lateness, end] = least;
  CHECK(is_or_stopped(ask(project, {lateness, end}, fixed, answers), kFound));
  CHECK(is_or_stopped(ask(project, {lateness, end - 1}, fixed, answers), kNone));
  if (lateness > 0) {
    CHECK(is_or_stopped(ask(project, {.lateness = lateness - 1}, fixed, answers), kNone));
  }
  const auto soonest = own::best_by_brute_force(project, own::Aim::kEnd, fixed);
  const Tick soonest_end = own::cost_by_hand(project, *soonest).end;
  CHECK(is_or_stopped(ask(project, {.end = soonest_end}, fixed, answers), kFound));
  CHECK(is_or_stopped(ask(project, {.end = soonest_end - 1}, fixed, answers), kNone));
}

/// Some activities where a good schedule has them, or anywhere that their start sets allow.
FixedStarts some_fixed(const Project& project, own::Random& random) {
  const auto best = own::best_by_brute_force(project, own::Aim::kEnd);
  FixedStarts fixed(project.activities.size());
  for (std::size_t i = 0; i < fixed.size(); ++i) {
    const auto& spans =
        project.start_sets[static_cast<std::size_t>(project.activities[i].starts)].spans;
    const auto span =
        static_cast<std::size_t>(random.between(0, static_cast<int>(spans.size()) - 1));
    if (best && random.chance(30)) {
      fixed[i] = best->starts[i];
    } else if (random.chance(25)) {
      fixed[i] = spans[span].first;
    }
  }
  return fixed;
}

void compare_seeds(int first, int last, bool with_fixed) {
  Answers answers;
  for (int seed = first; seed <= last; ++seed) {
    const Project project = own::random_project(static_cast<std::uint64_t>(seed));
    own::Random random(static_cast<std::uint64_t>(seed) + 1'000'000);
    INFO("seed " << seed);
    compare(project, with_fixed ? some_fixed(project, random) : FixedStarts{}, answers);
  }
  INFO(answers.found << " found, " << answers.none << " none, " << answers.stopped << " stopped");
  CHECK(answers.stopped * 100 <= answers.found + answers.none);
  CHECK(2 * answers.found > last - first);
  CHECK(2 * answers.none > last - first);
}

}  // namespace

TEST_CASE("The search finds a schedule where one exists, and only there", "[scheduling]") {
  compare_seeds(1, 250, false);
}

TEST_CASE("The search keeps fixed starts, and proves what they rule out", "[scheduling]") {
  compare_seeds(1, 200, true);
}

TEST_CASE("The search agrees with brute force on many more", "[.long]") {
  compare_seeds(1001, 6000, false);
  compare_seeds(1001, 4000, true);
}
