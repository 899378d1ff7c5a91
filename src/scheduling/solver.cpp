#include "scheduling/solver.h"

#include <algorithm>

#include "scheduling/improvement.h"
#include "scheduling/lower_bounds.h"
#include "scheduling/proof.h"
#include "scheduling/shifting.h"

namespace coatwright {
namespace {

/// Whether a schedule keeps all that a project asks for.
bool keeps_all(const Project& project, const LagNetwork& network, const StartTimes& schedule) {
  if (schedule.starts.size() != project.activities.size()) {
    return false;
  }
  Board board(project, network);
  for (int i = 0; i < network.count(); ++i) {
    const Tick start = schedule.starts[i];
    if (start < 0 || start > project.horizon ||
        network.earliest_beside(i, schedule.starts, start) != start ||
        network.latest_beside(i, schedule.starts, start) != start || board.obstacle_at(i, start)) {
      return false;
    }
    board.place(i, start);
  }
  return true;
}

/// A run of solve().
class Run {
 public:
  Run(const Project& project,
      const SearchLimits& limits,
      const LagNetwork& network,
      const Windows& windows)
      : project_(project),
        limits_(limits),
        network_(network),
        windows_(windows),
        improvement_(project, network, windows, limits.seed, limits.stop),
        proof_(project, limits.seed, limits.stop) {}

  SearchResult go(const StartTimes* start_from) {
    if (start_from != nullptr && start_from->starts.size() == project_.activities.size()) {
      improvement_.begin_with(start_from->starts);
      if (keeps_all(project_, network_, *start_from)) {
        best_.offer(project_, *start_from);
      }
    }
    search();
    compact();
    return result();
  }

 private:
  [[nodiscard]] std::int64_t nodes() const { return improvement_.placements() + proof_.nodes(); }
  [[nodiscard]] bool is_stopped() const { return limits_.stop && limits_.stop(); }
  [[nodiscard]] bool is_over() const { return nodes() >= limits_.nodes || is_stopped(); }
  [[nodiscard]] std::int64_t share(std::int64_t wanted) const {
    return std::min(wanted, limits_.nodes - nodes());
  }

  void search() {
    const auto count = static_cast<std::int64_t>(project_.activities.size());
    std::int64_t slice = 20 * count;
    improvement_.run(share(slice), best_);
    find_bounds();
    while (!is_proved_ && !is_over()) {
      is_proved_ = bounds_meet() || proof_.run(share(slice), best_, lateness_bound_);
      if (is_proved_ || is_over()) {
        break;
      }
      improvement_.run(share(slice), best_);
      slice += slice / 2;
    }
  }

  void find_bounds() {
    const LowerBounds bounds(project_, network_, windows_);
    lateness_bound_ = bounds.lateness_bound();
    const Tick known = best_.schedule ? best_.cost.end : kNeverTick / 2;
    end_bound_ = bounds.end_bound(known, limits_.stop);
  }

  [[nodiscard]] bool bounds_meet() const {
    return best_.schedule && best_.cost.lateness <= lateness_bound_ && best_.cost.end <= end_bound_;
  }

  /// What need not wait does not.
  void compact() {
    if (!best_.schedule) {
      return;
    }
    Board board(project_, network_);
    for (int i = 0; i < network_.count(); ++i) {
      board.place(i, best_.schedule->starts[i]);
    }
    shift_earlier(network_, board);
    best_.offer(project_, {board.starts()});
  }

  SearchResult result() const {
    SearchResult result;
    result.schedule = best_.schedule;
    result.cost = best_.cost;
    result.lateness_bound = lateness_bound_;
    result.end_bound = end_bound_;
    result.nodes = nodes();
    result.infeasible = is_proved_ && !best_.schedule;
    result.stopped_by = is_proved_     ? StoppedBy::kProof
                        : is_stopped() ? StoppedBy::kClock
                                       : StoppedBy::kBudget;
    if (!best_.schedule) {
      result.no_place = improvement_.no_place();
    }
    return result;
  }

  const Project& project_;
  const SearchLimits& limits_;
  const LagNetwork& network_;
  const Windows& windows_;
  Improvement improvement_;
  Proof proof_;
  Incumbent best_;
  std::int64_t lateness_bound_ = 0;
  Tick end_bound_ = 0;
  bool is_proved_ = false;
};

/// The windows closed before anything was placed.
SearchResult no_windows(const Windows& windows, int count) {
  SearchResult result;
  result.infeasible = true;
  result.stopped_by = StoppedBy::kProof;
  result.no_place = NoPlace{};
  for (int i = 0; i < count; ++i) {
    if (windows.low(i) > windows.high(i)) {
      result.no_place->activity = i;
      break;
    }
  }
  return result;
}

}  // namespace

SearchResult solve(const Project& project,
                   const SearchLimits& limits,
                   const StartTimes* start_from) {
  SearchResult result;
  if (project.activities.empty()) {
    result.schedule = StartTimes{};
    result.cost = cost_of(project, *result.schedule);
    result.lateness_bound = result.cost.lateness;
    result.stopped_by = StoppedBy::kProof;
    return result;
  }
  const LagNetwork network(project);
  Windows windows(network);
  if (!windows.propagate()) {
    return no_windows(windows, network.count());
  }
  return Run(project, limits, network, windows).go(start_from);
}

}  // namespace coatwright
