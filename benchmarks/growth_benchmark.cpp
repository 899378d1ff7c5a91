// How the time of solve() grows with a shop: from 10 to 1000 steps the time to a first schedule,
// and time and gap after fixed budgets of nodes; and the figures of busy and of large shops.
// Ends with 1 when a schedule breaks a rule.
#include <cstdio>
#include <fstream>
#include <optional>

#include "growth_chart.h"
#include "scheduling/own_schedule_checker.h"
#include "scheduling/solver.h"
#include "shop_weeks.h"
#include "stopwatch.h"

namespace {

using namespace coatwright;

constexpr std::int64_t kBudgets[] = {5'000, 20'000};
constexpr double kLongestRun = 60.0;  // seconds; then the clock stops it, and the table says so

int faults = 0;

struct Run {
  SearchResult result;
  double seconds = 0.0;  ///< On the wall: large searches have two threads.
};

Run timed_solve(const Project& project, std::int64_t nodes, double longest) {
  const WallClock watch;
  SearchLimits limits;
  limits.nodes = nodes;
  limits.stop = [&] { return watch.seconds() >= longest; };
  Run run{solve(project, limits), 0.0};
  run.seconds = watch.seconds();
  if (run.result.schedule) {
    for (const std::string& sentence : own::broken_rules(project, *run.result.schedule)) {
      std::printf("  broken: %s\n", sentence.c_str());
      ++faults;
    }
  }
  return run;
}

/// The least budget, doubled from one placement per activity on, that gives a schedule.
Run first_schedule(const Project& project) {
  Run run;
  for (auto nodes = static_cast<std::int64_t>(project.activities.size()); nodes < 1'000'000;
       nodes *= 2) {
    run = timed_solve(project, nodes, kLongestRun);
    if (run.result.schedule || run.seconds >= kLongestRun) {
      break;
    }
  }
  return run;
}

/// Of the end over the bound that no schedule which is no later can beat, in percent.
double gap_of(const SearchResult& result) {
  const Tick bound = result.end_bound_no_later;
  return 100.0 * (result.cost.end - bound) / std::max<Tick>(1, bound);
}

const char* text_of(StoppedBy stopped_by) {
  switch (stopped_by) {
    case StoppedBy::kProof:
      return "proof";
    case StoppedBy::kBudget:
      return "budget";
    case StoppedBy::kClock:
      return "clock";
  }
  return "";
}

void print_run(const char* what, const Run& run) {
  const SearchResult& result = run.result;
  if (!result.schedule) {
    std::printf("  %-28s %9.4f s  no schedule%s (%lld nodes)\n",
                what,
                run.seconds,
                result.infeasible ? ": proven infeasible" : "",
                static_cast<long long>(result.nodes));
    return;
  }
  std::printf(
      "  %-28s %9.4f s  late %lld min (bound %lld), end %d min (bound %d, gap %.2f %%), "
      "%lld nodes, stopped by %s\n",
      what,
      run.seconds,
      static_cast<long long>(result.cost.lateness),
      static_cast<long long>(result.lateness_bound),
      result.cost.end,
      result.end_bound_no_later,
      gap_of(result),
      static_cast<long long>(result.nodes),
      text_of(result.stopped_by));
}

/// Twelve steps a piece on a grain of five minutes, three people; due and horizon grow with it.
Project growing_shop(int steps) {
  ShopSize size;
  size.pieces = std::max(1, (steps + 6) / 12);
  size.least_steps = size.most_steps = steps < 12 ? steps : 12;
  size.people = 3;
  size.spray_places = 2;
  size.sands_apart = true;
  size.grain = 5;
  size.days = 21 + size.pieces;
  size.first_due = 4;
  size.last_due = 10 + size.pieces * 2 / 3;
  return invented_shop(size);
}

std::vector<GrowthLine> measure_growth(int most_steps) {
  std::vector<GrowthLine> lines = {
      {"first schedule", "", {}}, {"5,000 nodes", "7 4", {}}, {"20,000 nodes", "2 3", {}}};
  for (const int wanted : {10, 24, 48, 96, 192, 384, 600, 1000}) {
    if (wanted > most_steps) {
      break;
    }
    const Project project = growing_shop(wanted);
    const auto steps = static_cast<double>(project.activities.size());
    std::printf("%.0f steps\n", steps);
    const Run first = first_schedule(project);
    print_run("first schedule", first);
    lines[0].points.emplace_back(steps, first.seconds);
    for (std::size_t i = 0; i < std::size(kBudgets); ++i) {
      const Run run = timed_solve(project, kBudgets[i], kLongestRun);
      print_run(lines[i + 1].name.c_str(), run);
      lines[i + 1].points.emplace_back(steps, run.seconds);
    }
    std::fflush(stdout);
  }
  return lines;
}

/// Hours of people that the work of a project takes.
double work_hours(const Project& project) {
  double minutes = 0.0;
  for (const Activity& activity : project.activities) {
    minutes += activity.length;
  }
  return minutes / 60.0;
}

void measure_shop(const char* name, const ShopSize& size, double seconds) {
  const Project project = invented_shop(size);
  std::printf("%s: %d pieces, %zu steps of %.0f hours, %d people, %d spray places, %d days\n",
              name,
              size.pieces,
              project.activities.size(),
              work_hours(project),
              size.people,
              size.spray_places,
              size.days);
  print_run("first schedule", first_schedule(project));
  char what[32];
  std::snprintf(what, sizeof what, "%.0f s", seconds);
  print_run(what, timed_solve(project, 1'000'000'000, seconds));
  std::fflush(stdout);
}

/// The figures that the planner is judged by: two weeks in a second, two months in ten.
void measure_shops() {
  for (unsigned seed = 1; seed <= 3; ++seed) {
    measure_shop("busy fortnight", busy_fortnight(seed), 1.0);
  }
  // Ready after one month: the dates leave another.
  ShopSize months = busy_fortnight(1);
  months.pieces = 60;
  months.least_steps = 11;
  months.most_steps = 12;
  months.people = 4;
  months.spray_places = 2;
  months.sands_apart = true;
  months.days = 75;
  months.last_due = 55;
  for (months.seed = 1; months.seed <= 2; ++months.seed) {
    measure_shop("dates over two months", months, 10.0);
  }
  // Half the people and one spray place: the same work fills the two months.
  ShopSize filled = months;
  filled.people = 2;
  filled.spray_places = 1;
  filled.days = 110;
  filled.last_due = 70;
  for (filled.seed = 1; filled.seed <= 2; ++filled.seed) {
    measure_shop("two months of work", filled, 10.0);
  }
  // Orders come in over the two months, and are due a few weeks later.
  ShopSize orders = months;
  orders.last_arrival = 45;
  orders.first_due = 7;
  orders.last_due = 21;
  for (orders.seed = 1; orders.seed <= 2; ++orders.seed) {
    measure_shop("orders over two months", orders, 10.0);
  }
}

}  // namespace

int main(int count, char** arguments) {
  std::string svg;
  int most_steps = 1000;
  for (int i = 1; i < count; ++i) {
    const std::string argument = arguments[i];
    if (argument == "--svg" && i + 1 < count) {
      svg = arguments[++i];
    } else if (argument == "--most-steps" && i + 1 < count) {
      most_steps = std::stoi(arguments[++i]);
    } else {
      std::fprintf(stderr, "usage: benchmark_growth [--svg FILE] [--most-steps N]\n");
      return 2;
    }
  }
  const auto lines = measure_growth(most_steps);
  if (!svg.empty()) {
    std::ofstream(svg) << growth_chart("Time of the search over the size of an invented shop",
                                       lines);
  }
  measure_shops();
  return faults > 0 ? 1 : 0;
}
