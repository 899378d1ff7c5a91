// Published instances with minimum and maximum lags (ProGen/max [kolisch1998]): solve() against
// what is known of them and, where wanted, beside MiniZinc. Ends with 1 when a makespan lies below
// a proven optimum, an infeasible instance has a schedule, or a schedule breaks a rule.
#include <cstdio>
#include <cstring>
#include <map>

#include "outside_solver.h"
#include "project_instances.h"
#include "scheduling/own_schedule_checker.h"
#include "scheduling/solver.h"
#include "stopwatch.h"

namespace {

using namespace coatwright;

struct Options {
  std::string folder;
  double seconds = 0.25;  ///< Per instance.
  std::string beside;     ///< Command of the other solver; empty: none.
  std::string model = COATWRIGHT_BENCHMARKS "/rcpsp_max.mzn";
  bool lists = false;  ///< A line per instance.
};

struct Tally {
  int instances = 0;
  int closed = 0;  ///< Proven best or infeasible.
  int optima = 0;  ///< With a published optimum.
  int at_optimum = 0;
  int below_optimum = 0;
  int infeasible = 0;  ///< By what is published.
  int infeasible_proven = 0;
  int infeasible_with_plan = 0;
  int broken = 0;
  int with_gap = 0;
  double gaps = 0.0;  ///< Sum of (end - bound) / bound.
  double seconds = 0.0;
  double outside_seconds = 0.0;
  int outside_closed = 0;
  int outside_differs = 0;  ///< Both say best, and not the same.
};

void add(Tally& sum, const Tally& one) {
  for (int Tally::*count : {&Tally::instances,
                            &Tally::closed,
                            &Tally::optima,
                            &Tally::at_optimum,
                            &Tally::below_optimum,
                            &Tally::infeasible,
                            &Tally::infeasible_proven,
                            &Tally::infeasible_with_plan,
                            &Tally::broken,
                            &Tally::with_gap,
                            &Tally::outside_closed,
                            &Tally::outside_differs}) {
    sum.*count += one.*count;
  }
  for (double Tally::*amount : {&Tally::gaps, &Tally::seconds, &Tally::outside_seconds}) {
    sum.*amount += one.*amount;
  }
}

SearchResult timed_solve(const Project& project, double seconds, Tally& tally) {
  SearchLimits limits;
  limits.nodes = 1'000'000'000;
  const Stopwatch watch;
  limits.stop = [&] { return watch.seconds() >= seconds; };
  SearchResult result = solve(project, limits);
  tally.seconds += watch.seconds();
  return result;
}

void compare_with_published(const PublishedResult& published,
                            const SearchResult& result,
                            Tally& tally) {
  const bool optimal = published.kind == PublishedResult::Kind::kOptimal;
  const bool infeasible = published.kind == PublishedResult::Kind::kInfeasible;
  tally.optima += optimal ? 1 : 0;
  tally.infeasible += infeasible ? 1 : 0;
  tally.infeasible_proven += infeasible && result.infeasible ? 1 : 0;
  tally.infeasible_with_plan += infeasible && result.schedule ? 1 : 0;
  // A proof that there is nothing is as wrong as a makespan that is too short.
  tally.below_optimum += optimal && result.infeasible ? 1 : 0;
  if (optimal && result.schedule) {
    tally.at_optimum += result.cost.end == *published.best_known ? 1 : 0;
    tally.below_optimum += result.cost.end < *published.best_known ? 1 : 0;
  }
  if (optimal && result.end_bound > *published.best_known) {
    ++tally.below_optimum;
  }
}

Tally measure_own(const Project& project,
                  const Instance& instance,
                  const Options& options,
                  SearchResult& result) {
  Tally tally;
  tally.instances = 1;
  result = timed_solve(project, options.seconds, tally);
  tally.closed = result.stopped_by == StoppedBy::kProof ? 1 : 0;
  compare_with_published(instance.published, result, tally);
  if (result.schedule) {
    const auto sentences = own::broken_rules(project, *result.schedule);
    tally.broken = sentences.empty() ? 0 : 1;
    for (const std::string& sentence : sentences) {
      std::printf("  %s: %s\n", instance.file.c_str(), sentence.c_str());
    }
    if (result.end_bound > 0) {
      tally.with_gap = 1;
      const bool proven = result.stopped_by == StoppedBy::kProof;
      const Tick gap = proven ? 0 : result.cost.end - result.end_bound;
      tally.gaps = static_cast<double>(gap) / result.end_bound;
    }
  }
  return tally;
}

constexpr int kNoPath = -1'000'000;
using Distances = std::vector<std::vector<int>>;

/// Longest paths of lags between starts (Floyd and Warshall).
Distances distances_of(const Project& project) {
  const std::size_t count = project.activities.size();
  Distances distances(count, std::vector<int>(count, kNoPath));
  const auto raise = [&](int from, int to, Tick lag) {
    int& one = distances[static_cast<std::size_t>(from)][static_cast<std::size_t>(to)];
    one = std::max(one, lag);
  };
  for (const MinLag& rule : project.min_lags) {
    raise(rule.from, rule.to, rule.lag.constant);
  }
  for (const MaxLag& rule : project.max_lags) {
    raise(rule.to, rule.from, -rule.lag.constant);
  }
  for (std::size_t k = 0; k < count; ++k) {
    for (std::size_t i = 0; i < count; ++i) {
      for (std::size_t j = 0; j < count && distances[i][k] > kNoPath; ++j) {
        if (distances[k][j] > kNoPath) {
          // A cycle that grows would grow for ever: the instance is infeasible anyhow.
          distances[i][j] =
              std::max(distances[i][j], std::min(distances[i][k] + distances[k][j], -kNoPath));
        }
      }
    }
  }
  return distances;
}

std::string lag_lines(const Project& project) {
  std::vector<int> from;
  std::vector<int> to;
  std::vector<int> lag;
  const auto add_lag = [&](int first, int second, int least) {
    from.push_back(first + 1);
    to.push_back(second + 1);
    lag.push_back(least);
  };
  for (const MinLag& rule : project.min_lags) {
    add_lag(rule.from, rule.to, rule.lag.constant);
  }
  for (const MaxLag& rule : project.max_lags) {
    add_lag(rule.to, rule.from, -rule.lag.constant);
  }
  return number_line("lags", static_cast<int>(lag.size())) + list_line("lag_from", from) +
         list_line("lag_to", to) + list_line("lag", lag);
}

/// The data of benchmarks/rcpsp_max.mzn.
std::string outside_data(const Project& project) {
  const std::size_t count = project.activities.size();
  std::vector<int> lengths;
  std::vector<int> capacities;
  std::vector<std::vector<int>> demands(project.resources.size(), std::vector<int>(count, 0));
  for (std::size_t i = 0; i < count; ++i) {
    lengths.push_back(project.activities[i].length);
    for (const Demand& demand : project.activities[i].demands) {
      demands[static_cast<std::size_t>(demand.resource)][i] = demand.amount;
    }
  }
  for (const Resource& resource : project.resources) {
    capacities.push_back(resource.capacity.front().capacity);
  }
  return number_line("n", static_cast<int>(count)) + number_line("horizon", project.horizon) +
         number_line("resources", static_cast<int>(capacities.size())) +
         list_line("length", lengths) + list_line("capacity", capacities) + lag_lines(project) +
         matrix_line("demand", demands, "RESOURCE, ALL") +
         matrix_line("distance", distances_of(project), "ALL, ALL");
}

void measure_outside(const Project& project,
                     const Instance& instance,
                     const SearchResult& result,
                     const Options& options,
                     Tally& tally) {
  const ScratchFolder scratch;
  const OutsideAnswer answer = ask_outside(
      options.beside, options.model, scratch.write("instance.dzn", outside_data(project)));
  tally.outside_seconds = answer.seconds;
  tally.outside_closed = answer.proven ? 1 : 0;
  const bool both = answer.proven && result.stopped_by == StoppedBy::kProof;
  if (both && (answer.found != result.schedule.has_value() ||
               (answer.found && answer.end != result.cost.end))) {
    ++tally.outside_differs;
  }
  if (!answer.proven && !answer.found) {
    std::printf("  %s: the other solver gave no answer: %.200s\n",
                instance.file.filename().c_str(),
                answer.text.c_str());
  }
}

void print_heading(bool beside) {
  std::printf("%-16s %5s %6s %10s %6s %10s %8s %6s %8s %8s",
              "set",
              "count",
              "closed",
              "at optimum",
              "below",
              "infeasible",
              "proven",
              "plans",
              "gap %",
              "s");
  std::printf(beside ? " %12s %8s %8s\n" : "\n", "other closed", "other s", "differ");
}

void print_row(const std::string& name, const Tally& tally, bool beside) {
  std::printf("%-16s %5d %6d %5d/%-4d %6d %10d %8d %6d %8.2f %8.2f",
              name.c_str(),
              tally.instances,
              tally.closed,
              tally.at_optimum,
              tally.optima,
              tally.below_optimum,
              tally.infeasible,
              tally.infeasible_proven,
              tally.infeasible_with_plan,
              tally.with_gap > 0 ? 100.0 * tally.gaps / tally.with_gap : 0.0,
              tally.seconds);
  if (beside) {
    std::printf(
        " %12d %8.2f %8d", tally.outside_closed, tally.outside_seconds, tally.outside_differs);
  }
  std::printf("\n");
}

Tally measure(const Instance& instance, const Options& options) {
  const auto project = read_progen_max(instance.file);
  if (!project) {
    std::printf("  %s\n", project.error().text().c_str());
    return {};
  }
  SearchResult result;
  Tally tally = measure_own(*project, instance, options, result);
  if (!options.beside.empty()) {
    measure_outside(*project, instance, result, options, tally);
  }
  if (options.lists) {
    print_row("  " + instance.file.stem().string(), tally, !options.beside.empty());
  }
  return tally;
}

int run(const Options& options) {
  const auto instances = listed_instances(options.folder);
  if (!instances) {
    std::printf("skipped: %s\n", instances.error().text().c_str());
    return 0;
  }
  std::map<std::string, std::vector<Instance>> sets;
  for (const Instance& instance : *instances) {
    sets[instance.set].push_back(instance);
  }
  const bool beside = !options.beside.empty();
  print_heading(beside);
  Tally total;
  for (const auto& [name, members] : sets) {
    Tally tally;
    for (const Instance& instance : members) {
      add(tally, measure(instance, options));
    }
    print_row(name, tally, beside);
    add(total, tally);
  }
  print_row("total", total, beside);
  return total.below_optimum + total.infeasible_with_plan + total.broken > 0 ? 1 : 0;
}

}  // namespace

int main(int count, char** arguments) {
  Options options;
  for (int i = 1; i < count; ++i) {
    const std::string argument = arguments[i];
    const bool has_value = i + 1 < count;
    if (argument == "--seconds" && has_value) {
      options.seconds = std::stod(arguments[++i]);
    } else if (argument == "--beside" && has_value) {
      options.beside = arguments[++i];
    } else if (argument == "--list") {
      options.lists = true;
    } else if (!argument.starts_with("-") && options.folder.empty()) {
      options.folder = argument;
    } else {
      std::fprintf(stderr,
                   "usage: benchmark_rcpsp FOLDER [--seconds S] [--list] [--beside COMMAND]\n");
      return 2;
    }
  }
  if (options.folder.empty()) {
    std::printf("skipped: no folder with instances was named\n");
    return 0;
  }
  return run(options);
}
