#include "scheduling/conflict_search.h"

#include <algorithm>

#include "scheduling/free_starts.h"
#include "scheduling/lag_rules.h"
#include "scheduling/lateness_rule.h"
#include "scheduling/learned_clauses.h"
#include "scheduling/pair_rules.h"
#include "scheduling/time_table.h"
#include "scheduling/variable_order.h"

namespace coatwright {
namespace {

constexpr int kMostOrders = 20'000;
constexpr int kRestartUnit = 100;        // conflicts
constexpr std::int64_t kStopAsked = 64;  // decisions between two questions

std::vector<bool> given(const std::vector<std::optional<Tick>>& fixed_starts) {
  std::vector<bool> all;
  for (const auto& start : fixed_starts) {
    all.push_back(start.has_value());
  }
  return all;
}

/// 1 1 2 1 1 2 4 ...: how long the runs between restarts are. Source: [luby1993].
std::int64_t luby(std::int64_t turn) {
  std::int64_t size = 1;
  while (size < turn + 1) {
    size = 2 * size + 1;
  }
  while (size - 1 != turn) {
    size = (size - 1) / 2;
    turn %= size;
  }
  return (size + 1) / 2;
}

}  // namespace

class ConflictSearch::Search : public ReasonSource {
 public:
  Search(SearchTables& tables,
         const CostLimit& limit,
         const std::vector<std::optional<Tick>>& fixed_starts,
         const std::vector<Tick>& hint,
         unsigned seed)
      : project_(tables.project()),
        starts_(checked(free_starts(tables, limit, fixed_starts)), trail_, tables),
        inference_(trail_, *this),
        is_given_(given(fixed_starts)),
        lags_(project_, starts_, is_given_),
        lags_hold_(lags_.settle(inference_)),
        pairs_(project_, starts_, is_given_, trail_, kMostOrders),
        lateness_(project_, starts_),
        clauses_(trail_.variables()),
        order_(trail_.variables(), seed),
        phase_(static_cast<std::size_t>(trail_.variables()), 0),
        needed_(static_cast<std::size_t>(2 * trail_.variables())) {
    lateness_.limit(limit.lateness);
    if (limit.overrun) {
      overrun_.emplace(project_, starts_, limit.overrun->past);
      overrun_->limit(limit.overrun->sum);
    }
    for (std::size_t i = 0; i < project_.resources.size(); ++i) {
      tables_.emplace_back(project_, static_cast<int>(i), starts_);
      is_refuted_ = !tables_.back().fold_fixed(trail_) || is_refuted_;
    }
    watch_tables();
    for (std::size_t i = 0; i < hint.size(); ++i) {
      const StartDomain& domain = starts_.domain(static_cast<int>(i));
      phase_[i] = std::clamp(domain.index_up(hint[i]), 0, domain.size() - 1);
    }
    has_hint_ = !hint.empty();
    is_refuted_ = is_refuted_ || !lags_hold_ || !propagate_root();
  }

  void tighten(const CostLimit& limit) {
    back_to(0);
    lateness_.limit(limit.lateness);
    if (limit.overrun && overrun_) {
      overrun_->limit(limit.overrun->sum);
    }
    for (int i = 0; i < starts_.count() && !is_refuted_; ++i) {
      const Tick length = project_.activities[static_cast<std::size_t>(i)].length;
      is_refuted_ = !inference_.infer(starts_.not_after(i, limit.end - length), BoundReason{});
    }
    is_refuted_ = is_refuted_ || !propagate_root();
  }

  ProofOutcome run(std::int64_t nodes, const std::function<bool()>& stop) {
    const std::int64_t last = nodes_ + nodes;
    while (!is_refuted_) {
      if (!propagate()) {
        if (!learn()) {
          is_refuted_ = true;
        }
        continue;
      }
      if (conflicts_ >= next_restart_) {
        restart();
        continue;
      }
      const bool asks = stop && nodes_ % kStopAsked == 0;
      if (nodes_ >= last || (asks && stop())) {
        return ProofOutcome::kStopped;
      }
      ++nodes_;
      if (!decide()) {
        remember();
        return ProofOutcome::kFound;
      }
    }
    return ProofOutcome::kNone;
  }

  [[nodiscard]] const StartTimes& found() const { return found_; }
  [[nodiscard]] std::int64_t nodes() const { return nodes_; }

  void explain(const BoundReason& reason,
               BoundLiteral literal,
               std::vector<BoundLiteral>& out) const override {
    switch (reason.kind) {
      case BoundReason::Kind::kDecision:
        return;
      case BoundReason::Kind::kClause:
        clauses_.explain(reason.id, literal, out);
        return;
      case BoundReason::Kind::kLag:
        out.push_back(lags_.reason_of(reason.id, literal));
        return;
      case BoundReason::Kind::kStored: {
        const auto begin = trail_.store().begin() + reason.id;
        out.insert(out.end(), begin, begin + reason.count);
        return;
      }
    }
  }

 private:
  /// A literal that the conflict needs, as the side's strongest, and the entry that brought it.
  struct Needed {
    int entry = -1;
    int value = 0;
  };

  std::vector<StartDomain> checked(std::vector<StartDomain> domains) {
    for (StartDomain& domain : domains) {
      if (domain.size() == 0) {
        is_refuted_ = true;
        domain = StartDomain(StartSet{{StartSpan{0, 0}}}, 1, 0, 0);
      }
    }
    return domains;
  }

  void watch_tables() {
    tables_of_.assign(static_cast<std::size_t>(trail_.variables()), {});
    for (std::size_t i = 0; i < tables_.size(); ++i) {
      for (const int variable : tables_[i].variables()) {
        tables_of_[static_cast<std::size_t>(variable)].push_back(i);
      }
    }
    is_stale_.assign(tables_.size(), true);
  }

  bool propagate_root() {
    lateness_is_stale_ = true;
    std::fill(is_stale_.begin(), is_stale_.end(), true);
    if (!lags_.propagate_all(inference_) || !pairs_.propagate_all(inference_) || !propagate()) {
      return false;
    }
    settle_root();
    return true;
  }

  void settle_root() {
    trail_.settle_root();
    head_ = 0;
    for (TimeTable& table : tables_) {
      table.fold_fixed(trail_);
    }
    lateness_.fold_fixed(trail_);
    if (overrun_) {
      overrun_->fold_fixed(trail_);
    }
  }

  /// Draws all that follows. @return false on a contradiction.
  bool propagate() {
    while (true) {
      while (head_ < trail_.size()) {
        if (!follow(trail_.entry(head_++).literal.side)) {
          return false;
        }
      }
      if (lateness_is_stale_) {
        lateness_is_stale_ = false;
        if (!lateness_.propagate(inference_) || (overrun_ && !overrun_->propagate(inference_))) {
          return false;
        }
        continue;
      }
      const auto stale = std::find(is_stale_.begin(), is_stale_.end(), true);
      if (stale == is_stale_.end()) {
        return true;
      }
      *stale = false;
      if (!tables_[static_cast<std::size_t>(stale - is_stale_.begin())].propagate(inference_)) {
        return false;
      }
    }
  }

  bool follow(int side) {
    const int variable = side / 2;
    for (const std::size_t table : tables_of_[static_cast<std::size_t>(variable)]) {
      is_stale_[table] = true;
    }
    if (variable < starts_.count() && side % 2 == 0 &&
        (lateness_.looks_at(variable) || (overrun_ && overrun_->looks_at(variable)))) {
      lateness_is_stale_ = true;
    }
    return clauses_.propagate(side, inference_) && lags_.propagate(side, inference_) &&
           pairs_.propagate(side, inference_);
  }

  void back_to(int level) {
    undone_.clear();
    trail_.back_to(level, undone_);
    for (const int side : undone_) {
      order_.insert(side / 2);
    }
    head_ = trail_.size();
    std::fill(is_stale_.begin(), is_stale_.end(), false);
    lateness_is_stale_ = false;
  }

  void restart() {
    back_to(0);
    ++restarts_;
    next_restart_ = conflicts_ + kRestartUnit * luby(restarts_);
    settle_root();
    clauses_.reduce(trail_);
  }

  /// Learns a clause from the conflict and goes back to where it says something new.
  /// @return false when the conflict stands at the root.
  bool learn() {
    ++conflicts_;
    if (trail_.level() == 0) {
      return false;
    }
    open_ = 0;
    others_.clear();
    explained_ = inference_.conflict();
    int place = trail_.size();
    // A conflict may lie below the current level, when only late bounds were written at it.
    need_all();
    while (open_ == 0) {
      back_to_needed();
      place = trail_.size();
      if (trail_.level() == 0) {
        return false;
      }
    }
    BoundLiteral pivot;
    while (true) {
      --place;
      const BoundTrail::Entry& entry = trail_.entry(place);
      Needed& needed = needed_[static_cast<std::size_t>(entry.literal.side)];
      if (needed.entry != place) {
        continue;
      }
      pivot = {entry.literal.side, needed.value};
      needed.entry = -1;
      if (--open_ == 0) {
        break;
      }
      if (entry.reason.kind == BoundReason::Kind::kClause) {
        clauses_.bump(entry.reason.id);
      }
      explained_.clear();
      explain(entry.reason, pivot, explained_);
      need_all();
    }
    assert_learned(pivot);
    return true;
  }

  void need_all() {
    for (const BoundLiteral literal : explained_) {
      need(literal);
    }
  }

  /// Counts what lies at the current level in open_; lists the sides of the rest in others_.
  void need(BoundLiteral literal) {
    const int entry = trail_.entry_of(literal);
    if (entry == -1 || trail_.entry(entry).level == 0) {
      return;
    }
    order_.bump(literal.variable());
    Needed& needed = needed_[static_cast<std::size_t>(literal.side)];
    if (needed.entry != -1 && needed.value >= literal.value) {
      return;
    }
    const bool was_open = needed.entry != -1 && is_current(needed.entry);
    if (needed.entry == -1 || (!was_open && is_current(entry))) {
      if (is_current(entry)) {
        ++open_;
      }
    }
    if (needed.entry == -1 && !is_current(entry)) {
      others_.push_back(literal.side);
    } else if (needed.entry != -1 && !was_open && is_current(entry)) {
      std::erase(others_, literal.side);
    }
    needed = {entry, literal.value};
  }

  [[nodiscard]] bool is_current(int entry) const {
    return trail_.entry(entry).level == trail_.level();
  }

  /// Goes back to the level of the latest bound that the conflict needs.
  void back_to_needed() {
    int level = 0;
    for (const int side : others_) {
      level = std::max(level, trail_.entry(needed_[static_cast<std::size_t>(side)].entry).level);
    }
    back_to(level);
    const std::vector<int> sides = std::move(others_);
    others_.clear();
    for (const int side : sides) {
      if (is_current(needed_[static_cast<std::size_t>(side)].entry)) {
        ++open_;
      } else {
        others_.push_back(side);
      }
    }
  }

  void assert_learned(BoundLiteral pivot) {
    drop_implied();
    std::vector<BoundLiteral> clause = {negation(pivot)};
    int level = 0;
    for (const int side : others_) {
      Needed& needed = needed_[static_cast<std::size_t>(side)];
      const int at = trail_.entry(needed.entry).level;
      clause.push_back(negation({side, needed.value}));
      if (at > level) {
        level = at;
        std::swap(clause[1], clause.back());
      }
      needed.entry = -1;
    }
    order_.decay();
    const BoundLiteral learned = clause.front();
    back_to(level);
    const int id = clauses_.add(std::move(clause));
    inference_.infer(learned, {BoundReason::Kind::kClause, id, 0});
  }

  /// Leaves out literals that follow from the others that are kept.
  void drop_implied() {
    std::erase_if(others_, [&](int side) {
      Needed& needed = needed_[static_cast<std::size_t>(side)];
      const BoundTrail::Entry& entry = trail_.entry(needed.entry);
      if (entry.reason.kind == BoundReason::Kind::kDecision) {
        return false;
      }
      explained_.clear();
      explain(entry.reason, {side, needed.value}, explained_);
      const bool implied =
          std::all_of(explained_.begin(), explained_.end(), [&](BoundLiteral literal) {
            const Needed& other = needed_[static_cast<std::size_t>(literal.side)];
            return trail_.is_true_at_root(literal) ||
                   (literal.side != side && other.entry != -1 && other.value >= literal.value);
          });
      if (implied) {
        needed.entry = -1;
      }
      return implied;
    });
  }

  /// @return false when every variable is fixed.
  bool decide() {
    const bool by_time = restarts_ % 2 == (has_hint_ ? 1 : 0);
    const BoundLiteral decision = by_time ? earliest_first() : most_active_first();
    if (decision.side < 0) {
      return false;
    }
    trail_.begin_level();
    inference_.infer(decision, BoundReason{});
    return true;
  }

  /// The activity that can start first does.
  BoundLiteral earliest_first() {
    int best = -1;
    for (int i = 0; i < starts_.count(); ++i) {
      if (trail_.is_fixed(i)) {
        continue;
      }
      if (best == -1 || starts_.low(i) < starts_.low(best) ||
          (starts_.low(i) == starts_.low(best) && starts_.high(i) < starts_.high(best))) {
        best = i;
      }
    }
    return best == -1 ? most_active_first() : at_most(best, trail_.low(best));
  }

  BoundLiteral most_active_first() {
    for (int variable = order_.pop(); variable != -1; variable = order_.pop()) {
      if (trail_.is_fixed(variable)) {
        continue;
      }
      const int low = trail_.low(variable);
      const int wanted =
          std::clamp(phase_[static_cast<std::size_t>(variable)], low, trail_.high(variable));
      order_.insert(variable);
      return wanted > low ? at_least(variable, wanted) : at_most(variable, low);
    }
    return {-1, 0};
  }

  void remember() {
    found_.starts.clear();
    for (int i = 0; i < starts_.count(); ++i) {
      found_.starts.push_back(starts_.low(i));
    }
    for (int i = 0; i < trail_.variables(); ++i) {
      phase_[static_cast<std::size_t>(i)] = trail_.low(i);
    }
    has_hint_ = true;
  }

  const Project& project_;
  bool is_refuted_ = false;
  BoundTrail trail_;
  StartVariables starts_;
  Inference inference_;
  std::vector<bool> is_given_;  ///< Per activity: it is fixed; empty: none is.
  LagRules lags_;
  bool lags_hold_;  ///< What follows from them is drawn before pairs are written down.
  PairRules pairs_;
  LatenessRule lateness_;
  std::optional<LatenessRule> overrun_;
  std::vector<TimeTable> tables_;
  std::vector<std::vector<std::size_t>> tables_of_;  ///< Per variable.
  std::vector<bool> is_stale_;                       ///< Per table.
  bool lateness_is_stale_ = true;
  LearnedClauses clauses_;
  VariableOrder order_;
  std::vector<int> phase_;  ///< Per variable: the value to be tried first.
  bool has_hint_ = false;
  int head_ = 0;  ///< Trail entries before it have been followed.
  std::vector<int> undone_;
  std::vector<Needed> needed_;  ///< Per side.
  std::vector<int> others_;     ///< Sides that are needed from lower levels.
  int open_ = 0;                ///< How many are needed of the current level.
  std::vector<BoundLiteral> explained_;
  std::int64_t nodes_ = 0;
  std::int64_t conflicts_ = 0;
  std::int64_t restarts_ = 0;
  std::int64_t next_restart_ = kRestartUnit;
  StartTimes found_;
};

ConflictSearch::ConflictSearch(SearchTables& tables,
                               const CostLimit& limit,
                               const std::vector<std::optional<Tick>>& fixed_starts,
                               const std::vector<Tick>& hint,
                               unsigned seed)
    : search_(std::make_unique<Search>(tables, limit, fixed_starts, hint, seed)) {}

ConflictSearch::~ConflictSearch() = default;

void ConflictSearch::tighten(const CostLimit& limit) {
  search_->tighten(limit);
}

ProofOutcome ConflictSearch::run(std::int64_t nodes, const std::function<bool()>& stop) {
  return search_->run(nodes, stop);
}

const StartTimes& ConflictSearch::found() const {
  return search_->found();
}

std::int64_t ConflictSearch::nodes() const {
  return search_->nodes();
}

ProofResult search_within(SearchTables& tables,
                          const CostLimit& limit,
                          const std::vector<std::optional<Tick>>& fixed_starts,
                          const std::vector<Tick>& hint,
                          std::int64_t nodes,
                          unsigned seed,
                          const std::function<bool()>& stop) {
  ConflictSearch search(tables, limit, fixed_starts, hint, seed);
  ProofResult result;
  result.outcome = search.run(nodes, stop);
  result.schedule = search.found();
  result.nodes = search.nodes();
  return result;
}

}  // namespace coatwright
