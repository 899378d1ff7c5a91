// Invented weeks of small shops, or fortnights of a larger one: solve() beside MiniZinc on the same
// projects, both checked by separate code. Ends with 1 when a schedule breaks a rule, or when
// solve() and MiniZinc contradict each other in what they prove.
#include <cstdio>
#include <string>

#include "outside_solver.h"
#include "scheduling/own_schedule_checker.h"
#include "scheduling/solver.h"
#include "shop_data.h"
#include "shop_weeks.h"
#include "stopwatch.h"

namespace {

using namespace coatwright;

struct Options {
  int first = 1;
  int weeks = 30;
  double seconds = 1.0;     ///< For solve(), per week.
  bool fortnights = false;  ///< Busy fortnights of a larger shop in place of weeks.
  std::string beside;       ///< Command of the other solver; empty: none.
  std::string model = COATWRIGHT_BENCHMARKS "/shop_project.mzn";
};

/// One solver's answer to one week, moments in minutes.
struct Answer {
  bool found = false;
  bool proven = false;           ///< That the lateness, and the end with it, are the least.
  bool lateness_proven = false;  ///< That no schedule is less late.
  own::Cost cost;
  std::int64_t lateness_bound = 0;
  Tick end_bound = 0;
  double seconds = 0.0;
  int broken = 0;  ///< Rules that its schedule breaks.
};

struct Totals {
  int faults = 0;
  int ours_proven = 0;
  int theirs_proven = 0;
  int better = 0;
  int same = 0;
  int worse = 0;
};

int count_broken(const Project& project, const StartTimes& schedule, const char* whose) {
  const auto sentences = own::broken_rules(project, schedule);
  for (const std::string& sentence : sentences) {
    std::printf("  %s schedule: %s\n", whose, sentence.c_str());
  }
  return static_cast<int>(sentences.size());
}

Answer ask_own(const Project& project, double seconds) {
  const Stopwatch watch;
  SearchLimits limits;
  limits.nodes = 1'000'000'000;
  limits.stop = [&] { return watch.seconds() >= seconds; };
  const SearchResult result = solve(project, limits);
  Answer answer;
  answer.seconds = watch.seconds();
  answer.proven = result.stopped_by == StoppedBy::kProof;
  answer.lateness_bound = result.lateness_bound;
  answer.end_bound = result.end_bound_no_later;
  if (result.schedule) {
    answer.found = true;
    answer.cost = own::cost_by_hand(project, *result.schedule);
    answer.lateness_proven = answer.proven || result.lateness_bound == answer.cost.lateness;
    answer.broken = count_broken(project, *result.schedule, "our");
  }
  return answer;
}

/// Keeps a schedule that the other solver found, in minutes.
void keep(const Project& project, const OutsideAnswer& said, Answer& answer) {
  StartTimes schedule = said.schedule;
  for (Tick& start : schedule.starts) {
    start *= project.grain;
  }
  answer.found = true;
  answer.cost = own::cost_by_hand(project, schedule);
  answer.broken += count_broken(project, schedule, "the other solver's");
}

/// Two calls: the least lateness, and the least end with it.
Answer ask_other(const Project& project, const Options& options) {
  const ScratchFolder scratch;
  const std::string data = shop_data(project);
  const auto ask = [&](OutsideGoal goal, std::int64_t limit) {
    return ask_outside(
        options.beside, options.model, scratch.write("week.dzn", data + goal_data(goal, limit)));
  };
  Answer answer;
  const OutsideAnswer lateness = ask(OutsideGoal::kLateness, -1);
  answer.seconds = lateness.seconds;
  answer.proven = lateness.proven;
  if (!lateness.found) {
    if (!lateness.proven) {
      std::printf("  the other solver found nothing: %.200s\n", lateness.text.c_str());
    }
    return answer;
  }
  answer.lateness_proven = lateness.proven;
  keep(project, lateness, answer);
  const OutsideAnswer end = ask(OutsideGoal::kEnd, answer.cost.lateness / project.grain);
  answer.seconds += end.seconds;
  answer.proven = answer.proven && end.proven;
  if (end.found) {
    keep(project, end, answer);
  }
  return answer;
}

std::string text_of(const Answer& answer) {
  if (!answer.found) {
    return answer.proven ? "infeasible" : "no schedule";
  }
  std::string text = std::to_string(answer.cost.lateness) + (answer.lateness_proven ? "" : "?");
  text += " / " + std::to_string(answer.cost.end) + (answer.proven ? " best" : "");
  return text;
}

/// What is proven by one and beaten by the other, or found where the other proved that there is
/// nothing.
bool contradict(const Answer& one, const Answer& other) {
  if (one.proven && !one.found) {
    return other.found;
  }
  if (!one.found || !other.found) {
    return false;
  }
  return (one.proven && other.cost < one.cost) ||
         (one.lateness_proven && other.cost.lateness < one.cost.lateness) ||
         other.cost.lateness < one.lateness_bound ||
         // The end's bound is one of the schedules that are no later.
         (other.cost.lateness <= one.cost.lateness && other.cost.end < one.end_bound);
}

std::string difference_of(const Answer& ours, const Answer& theirs) {
  if (!ours.found || !theirs.found) {
    return "-";
  }
  char text[32];
  if (ours.cost.lateness != theirs.cost.lateness) {
    std::snprintf(text,
                  sizeof text,
                  "%+lld late",
                  static_cast<long long>(ours.cost.lateness - theirs.cost.lateness));
  } else {
    std::snprintf(
        text, sizeof text, "%+.2f %%", 100.0 * (ours.cost.end - theirs.cost.end) / theirs.cost.end);
  }
  return text;
}

void count(const Answer& ours, const Answer& theirs, bool beside, Totals& totals) {
  totals.faults += ours.broken + theirs.broken;
  totals.ours_proven += ours.proven ? 1 : 0;
  totals.theirs_proven += theirs.proven ? 1 : 0;
  if (!beside) {
    return;
  }
  totals.faults += contradict(ours, theirs) || contradict(theirs, ours) ? 1 : 0;
  if (ours.found != theirs.found) {
    ++(ours.found ? totals.better : totals.worse);
  } else if (ours.found && ours.cost != theirs.cost) {
    ++(ours.cost < theirs.cost ? totals.better : totals.worse);
  } else {
    ++totals.same;
  }
}

void compare_week(int week, const Options& options, Totals& totals) {
  const auto seed = static_cast<unsigned>(week);
  const Project project =
      options.fortnights ? invented_shop(busy_fortnight(seed)) : shop_week(seed);
  const Answer ours = ask_own(project, options.seconds);
  const bool beside = !options.beside.empty();
  const Answer theirs = beside ? ask_other(project, options) : Answer{};
  count(ours, theirs, beside, totals);
  const double gap = ours.found && ours.end_bound > 0
                         ? 100.0 * (ours.cost.end - ours.end_bound) / ours.end_bound
                         : 0.0;
  std::printf("%4d %10zu  %-24s %7lld / %-6d %6.2f %8.2f",
              week,
              project.activities.size(),
              text_of(ours).c_str(),
              static_cast<long long>(ours.lateness_bound),
              ours.end_bound,
              gap,
              ours.seconds);
  if (beside) {
    std::printf("  %-24s %8.2f %12s%s",
                text_of(theirs).c_str(),
                theirs.seconds,
                difference_of(ours, theirs).c_str(),
                contradict(ours, theirs) || contradict(theirs, ours) ? "  CONTRADICTION" : "");
  }
  std::printf("\n");
  std::fflush(stdout);
}

int run(const Options& options) {
  const bool beside = !options.beside.empty();
  std::printf("late / end in minutes; best: both proven least; ?: lateness not proven least\n");
  std::printf("%4s %10s  %-24s %16s %6s %8s", "week", "activities", "ours", "bounds", "gap %", "s");
  std::printf(beside ? "  %-24s %8s %12s\n" : "\n", "MiniZinc's", "s", "difference");
  Totals totals;
  for (int week = options.first; week < options.first + options.weeks; ++week) {
    compare_week(week, options, totals);
  }
  std::printf("%d %s: we proved %d",
              options.weeks,
              options.fortnights ? "fortnights" : "weeks",
              totals.ours_proven);
  if (beside) {
    std::printf(", MiniZinc %d; ours are better %d, the same %d, worse %d",
                totals.theirs_proven,
                totals.better,
                totals.same,
                totals.worse);
  } else {
    std::printf("; beside MiniZinc: skipped, no command was named");
  }
  std::printf("; faults %d\n", totals.faults);
  return totals.faults > 0 ? 1 : 0;
}

}  // namespace

int main(int count, char** arguments) {
  Options options;
  for (int i = 1; i < count; ++i) {
    const std::string argument = arguments[i];
    if (argument == "--fortnights") {
      options.fortnights = true;
      continue;
    }
    if (i + 1 == count) {
      std::fprintf(stderr,
                   "usage: benchmark_shop_weeks [--first N] [--weeks N] [--seconds S] "
                   "[--fortnights] [--beside COMMAND]\n");
      return 2;
    }
    const std::string value = arguments[++i];
    if (argument == "--first") {
      options.first = std::stoi(value);
    } else if (argument == "--weeks") {
      options.weeks = std::stoi(value);
    } else if (argument == "--seconds") {
      options.seconds = std::stod(value);
    } else if (argument == "--beside") {
      options.beside = value;
    } else {
      std::fprintf(stderr, "unknown option %s\n", argument.c_str());
      return 2;
    }
  }
  return run(options);
}
