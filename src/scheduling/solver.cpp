#include "scheduling/solver.h"

#include <algorithm>
#include <atomic>
#include <chrono>
#include <future>

#include "scheduling/bound_raising.h"
#include "scheduling/divided_search.h"
#include "scheduling/improvement.h"
#include "scheduling/lower_bounds.h"
#include "scheduling/neighbourhood_search.h"
#include "scheduling/priced_bounds.h"
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

/// Placements per activity for a small sum of ends, when nothing else is left to gain.
constexpr std::int64_t kPolish = 40;
constexpr std::int64_t kFew = 100;  // activities
constexpr std::int64_t kMany = 300;

/// How the rounds of a search are divided, in eighths of a slice. The conflict search over all
/// activities is what proves, and the slower the more there are. Measured on drawn shops.
struct Shares {
  std::int64_t proof;
  std::int64_t improvement;
  std::int64_t neighbourhoods;
  std::int64_t aiming;
  std::int64_t raising;
};
constexpr std::int64_t kEighths = 8;
constexpr Shares kSmall = {4, 8, 24, 2, 8};
constexpr Shares kMedium = {1, 2, 30, 0, 0};
constexpr Shares kLarge = {0, 2, 24, 0, 0};

/// How the rounds of a large search are divided whose days can be (divided_search.h), in parts.
struct DividedShares {
  std::int64_t improvement;
  std::int64_t neighbourhoods;
  std::int64_t first_lane;
  std::int64_t second_lane;
  [[nodiscard]] constexpr std::int64_t sum() const {
    return improvement + neighbourhoods + first_lane + second_lane;
  }
};
constexpr DividedShares kDivided = {2, 2, 12, 20};
constexpr std::int64_t kPartsOfSlice = 16;
constexpr std::chrono::milliseconds kStopAsked{10};  // while the second lane is waited for

/// Starts and slots that the bounds may look at per node of a slice: it takes about an eighth of
/// the time that the search takes.
constexpr std::int64_t kEffortPerNode = 1500;
constexpr std::int64_t kEffortBeside = 150;  // where the nodes of two lanes are counted

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
        tables_(project),
        improvement_(project, network, windows, limits.seed, limits.stop),
        aiming_(tables_, limits.seed, limits.stop),
        neighbourhoods_(tables_, network, limits.seed, limits.stop),
        raising_(tables_, limits.seed, limits.stop),
        proof_(tables_, limits.seed, limits.stop) {}

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
  [[nodiscard]] std::int64_t nodes() const {
    return improvement_.placements() + aiming_.nodes() + neighbourhoods_.nodes() +
           (divided_ ? divided_->nodes() : 0) + raising_.nodes() + proof_.nodes();
  }
  [[nodiscard]] bool is_stopped() const { return limits_.stop && limits_.stop(); }
  [[nodiscard]] bool is_over() const { return nodes() >= limits_.nodes || is_stopped(); }
  [[nodiscard]] std::int64_t share(std::int64_t wanted) const {
    return std::min(wanted, limits_.nodes - nodes());
  }

  void search() {
    const auto count = static_cast<std::int64_t>(project_.activities.size());
    const Shares& shares = count <= kFew ? kSmall : count <= kMany ? kMedium : kLarge;
    std::int64_t slice = std::min(20 * count, 1 + limits_.nodes / 8);
    improvement_.run(std::min(20 * count, limits_.nodes / 4), best_);
    find_bounds();
    if (count > kMany) {
      divide_days(slice);
    }
    while (!is_proved_ && !is_over()) {
      const std::int64_t before = nodes();
      if (divided_) {
        round_in_two_lanes(slice);
      } else {
        round(shares, slice);
      }
      slice += divided_ ? 0 : slice / 2;
      if (nodes() == before) {
        break;
      }
    }
    if (is_proved_) {
      improvement_.keep_end();
      improvement_.run(share(kPolish * count), best_);
    }
  }

  void round(const Shares& shares, std::int64_t slice) {
    const std::int64_t proof = best_.schedule ? shares.proof : kEighths;
    is_proved_ = bounds_meet() || proof_.run(share(proof * slice / kEighths), bounds_, best_);
    if (!is_proved_) {
      raise_bounds(kEffortPerNode * slice);
      is_proved_ = bounds_meet();
    }
    if (is_proved_) {
      return;
    }
    raising_.run(shares.raising * slice / kEighths, limits_.nodes - nodes(), bounds_, best_);
    improvement_.run(share(shares.improvement * slice / kEighths), best_);
    neighbourhoods_.run(share(shares.neighbourhoods * slice / kEighths), bounds_.lateness, best_);
    aiming_.run(share(shares.aiming * slice / kEighths), bounds_, best_);
  }

  void divide_days(std::int64_t placements) {
    const DividedSearch::Stops stops = {limits_.stop, [this] { return stops_beside_.load(); }};
    divided_ = DividedSearch::of(project_, network_, windows_, limits_.seed, stops);
    if (divided_ && !divided_->build(share(placements))) {
      divided_.reset();
    }
  }

  /// What is done beside the second lane has nodes of its own, given out before: the outcome is the
  /// same whichever of the two is done first.
  void round_in_two_lanes(std::int64_t slice) {
    const std::int64_t part =
        std::min(slice / kPartsOfSlice, (limits_.nodes - nodes()) / kDivided.sum());
    const std::int64_t lateness_bound = bounds_.lateness;
    const bool is_led = divided_->leads(best_);
    std::future<void> beside = std::async(
        std::launch::async, [&] { divided_->run(1, kDivided.second_lane * part, lateness_bound); });
    raise_bounds(kEffortBeside * part * kDivided.sum());
    improvement_.run(kDivided.improvement * part, best_);
    neighbourhoods_.run(kDivided.neighbourhoods * part, lateness_bound, best_);
    if (is_led) {
      divided_->run(0, kDivided.first_lane * part, lateness_bound);
    } else {
      neighbourhoods_.run(kDivided.first_lane * part, lateness_bound, best_);
    }
    while (beside.wait_for(kStopAsked) != std::future_status::ready) {
      stops_beside_ = stops_beside_ || is_stopped();
    }
    beside.get();
    divided_->share(best_);
    is_proved_ = bounds_meet();
  }

  void find_bounds() {
    energy_.emplace(project_, network_, windows_);
    bounds_.lateness = energy_->lateness_bound();
    const Tick known = best_.schedule ? best_.cost.end : kNeverTick / 2;
    bounds_.end = however_late_ = energy_->end_bound(known, limits_.stop);
    end_pricing_.emplace(project_, network_, windows_, *energy_);
  }

  /// Looks closer at the bounds, and at schedules that are no later than the best alone when it has
  /// become less late.
  void raise_bounds(std::int64_t effort) {
    if (!best_.schedule) {
      return;
    }
    if (has_due_dates() && best_.cost.lateness != narrowed_to_) {
      narrow();
    }
    const bool may_be_less_late = best_.cost.lateness > bounds_.lateness;
    if (may_be_less_late && lateness_pricing_) {
      lateness_pricing_->run(effort, best_.cost.lateness, limits_.stop, bounds_.lateness);
    }
    // As long as less lateness is looked for, the end matters less.
    const std::int64_t on_end = may_be_less_late ? effort / 4 : effort / 2;
    end_pricing_->run(on_end, best_.cost.end, limits_.stop, however_late_);
    bounds_.end = std::max(bounds_.end, however_late_);
    if (no_later_pricing_) {
      no_later_pricing_->run(on_end, best_.cost.end, limits_.stop, bounds_.end);
    }
  }

  void narrow() {
    narrowed_to_ = best_.cost.lateness;
    const auto within = energy_->no_later_than(narrowed_to_);
    if (!within) {
      return;
    }
    bounds_.end = std::max(bounds_.end, energy_->end_bound(*within, best_.cost.end, limits_.stop));
    no_later_pricing_.emplace(project_, network_, *within, *energy_);
    if (lateness_pricing_) {
      lateness_pricing_->keep_within(*within);
    } else if (narrowed_to_ > bounds_.lateness) {
      lateness_pricing_.emplace(project_, network_, *within, *energy_);
    }
  }

  [[nodiscard]] bool bounds_meet() const {
    return best_.schedule && best_.cost.lateness <= bounds_.lateness &&
           best_.cost.end <= bounds_.end;
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

  [[nodiscard]] bool has_due_dates() const {
    return std::any_of(project_.jobs.begin(), project_.jobs.end(), [](const Job& job) {
      return job.due < kNeverTick && job.weight > 0;
    });
  }

  [[nodiscard]] SearchResult result() const {
    SearchResult result;
    result.schedule = best_.schedule;
    result.cost = best_.cost;
    result.lateness_bound = bounds_.lateness;
    result.end_bound = however_late_;
    result.end_bound_no_later = bounds_.end;
    result.nodes = nodes();
    result.infeasible = is_proved_ && !best_.schedule;
    result.stopped_by = is_proved_     ? StoppedBy::kProof
                        : is_stopped() ? StoppedBy::kClock
                                       : StoppedBy::kBudget;
    if (!best_.schedule) {
      result.no_place = improvement_.no_place();
    } else if (is_proved_) {
      result.end_bound_no_later = best_.cost.end;
    }
    if (best_.schedule && !has_due_dates()) {
      result.end_bound = result.end_bound_no_later;  // no lateness stands in the way of an end
    }
    return result;
  }

  const Project& project_;
  const SearchLimits& limits_;
  const LagNetwork& network_;
  const Windows& windows_;
  SearchTables tables_;
  Improvement improvement_;
  Aiming aiming_;
  NeighbourhoodSearch neighbourhoods_;
  std::atomic<bool> stops_beside_ = false;  ///< The second lane, which cannot ask limits_.stop.
  std::unique_ptr<DividedSearch> divided_;  ///< Null: nothing is divided.
  BoundRaising raising_;
  Proof proof_;
  Incumbent best_;
  ProvenBounds bounds_;    ///< Its end: of the schedules that are no later than the best.
  Tick however_late_ = 0;  ///< No schedule ends earlier.
  std::optional<LowerBounds> energy_;
  std::optional<EndPricing> end_pricing_;       ///< Of all schedules.
  std::optional<EndPricing> no_later_pricing_;  ///< Of those that are no later than the best.
  std::optional<LatenessPricing> lateness_pricing_;
  std::int64_t narrowed_to_ = -1;  ///< The lateness that the last two keep to.
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
