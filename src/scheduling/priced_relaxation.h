#pragma once

#include <cstdint>
#include <map>
#include <vector>

#include "scheduling/lag_forest.h"
#include "scheduling/usable_capacity.h"

namespace coatwright {

/// A price for each pool and slot of time, per amount and tick, in fixed point.
using Prices = std::vector<std::int64_t>;

/// A project without its pools, which are paid for instead: what a schedule of it costs at least.
/// For prices that are not negative no schedule of the project has less lateness than that cost
/// less the worth of all that the pools have. Costs are whole numbers in units of 1 / kPriceUnit,
/// so that nothing is rounded and every machine finds the same.
/// Source: Lagrangian relaxation of the resources in a time-indexed program [mohring2003]; there
/// precedences are kept by a minimum cut. Here a forest of lags is kept by a recursion over the
/// starts, for lags that depend on the start.
class PricedRelaxation {
 public:
  static constexpr std::int64_t kPriceUnit = std::int64_t{1} << 16;
  static constexpr std::int64_t kNoCost = std::int64_t{1} << 60;  ///< No start keeps the lags.

  /// @param windows drawn from all lags. @param until no activity is of interest that starts later.
  /// @param most_slots of time, at least 1. @param most_starts more are not told apart where they
  /// follow each other; a coarser view gives a lower cost.
  PricedRelaxation(const Project& project,
                   const LagNetwork& network,
                   const Windows& windows,
                   const std::vector<Pool>& pools,
                   const std::vector<UsableCapacity>& usable,
                   Tick until,
                   int most_slots,
                   std::int64_t most_starts);

  /// The cost of an activity's start beside the prices: weight times what start + tail is past due.
  struct Lateness {
    int weight = 0;
    Tick tail = 0;
    Tick due = kNeverTick;
  };
  void count_lateness(int activity, const Lateness& lateness) { lateness_[activity] = lateness; }
  /// Starts outside of these windows are left out; they must lie in the first ones.
  void keep_within(const Windows& windows);

  [[nodiscard]] std::size_t prices() const { return capacity_.size(); }
  [[nodiscard]] std::size_t slots() const { return slots_; }
  /// @return the least cost at these prices, kNoCost or more when no starts keep the lags.
  [[nodiscard]] std::int64_t least_cost(const Prices& prices);
  /// What the starts of the last least_cost() take, per price.
  [[nodiscard]] const std::vector<std::int64_t>& taken() const { return taken_; }
  /// What is there, per price.
  [[nodiscard]] const std::vector<std::int64_t>& capacity() const { return capacity_; }
  /// How many groups of starts are looked at by least_cost().
  [[nodiscard]] std::int64_t effort() const { return effort_; }

 private:
  /// Moments that follow from the starts of a set.
  struct Moments {
    int starts;
    std::vector<Tick> at;
  };
  /// So much more, or less, of a pool from a moment on is taken to be paid for up to it: a use is
  /// its amount up to its end less its amount up to its begin.
  struct Term {
    int moments;
    int pool;
    int amount;
    bool operator<(const Term& with) const;
  };

  void add_terms(const Project& project, const std::vector<Pool>& pools);
  int moments_of(const Project& project, int activity, const Lag& lag);
  void add_up(const Prices& prices);
  void price_kind(const LagForest::Node& node, int kind);
  void price(std::size_t node);
  void hand_up(std::size_t node);
  void choose();
  void take(const Term& term, int start);
  void find_taken();
  [[nodiscard]] std::int64_t paid_until(int pool, Tick moment) const;

  LagForest forest_;
  std::size_t slots_ = 0;
  int shift_ = 0;  ///< A slot lasts two to the power of it.
  std::vector<std::int64_t> capacity_;
  std::vector<Lateness> lateness_;  ///< Per activity.
  std::vector<Moments> moments_;
  std::map<std::tuple<int, const LagFunction*, Tick>, int> known_moments_;
  std::vector<std::vector<Term>> terms_;  ///< Per activity.
  std::vector<int> kind_;                 ///< Per activity: those of a kind pay the same.
  std::vector<int> first_;                ///< Per node, into the groups of its set.
  std::vector<int> last_;
  std::int64_t effort_ = 0;

  const Prices* prices_ = nullptr;
  std::vector<std::int64_t> before_;    ///< Per price, the sum over the slots before it.
  std::vector<std::int64_t> by_start_;  ///< Costs of one kind.
  std::vector<std::vector<std::int64_t>> by_kind_;  ///< The least costs per group of starts,
  std::vector<std::vector<int>> cheapest_;          ///< and the start that has it.
  std::vector<std::vector<std::int64_t>> costs_;    ///< Per node and group, with all below it.
  std::vector<std::vector<int>> choices_;           ///< Per node and group of its parent.
  std::vector<int> queue_;                          ///< Of starts, while they are handed up.
  std::vector<int> chosen_;                         ///< Per node.
  std::vector<std::int64_t> taken_;
  std::vector<std::int64_t> whole_;  ///< While they are added up: in all slots before.
};

}  // namespace coatwright
