#include "scheduling/free_starts.h"

#include <algorithm>

#include "scheduling/lag_rules.h"

namespace coatwright {
namespace {

using FixedStarts = std::vector<std::optional<Tick>>;

/// From a moment up to, and without, another.
struct Span {
  Tick from = 0;
  Tick until = 0;
};

std::vector<StartDomain> start_sets(const SearchTables& tables,
                                    const CostLimit& limit,
                                    const FixedStarts& fixed_starts) {
  const Project& project = tables.project();
  std::vector<StartDomain> domains;
  domains.reserve(project.activities.size());
  for (std::size_t i = 0; i < project.activities.size(); ++i) {
    Tick earliest = 0;
    Tick latest = std::min(project.horizon, limit.end - project.activities[i].length);
    if (!fixed_starts.empty() && fixed_starts[i]) {
      earliest = std::max(earliest, *fixed_starts[i]);
      latest = std::min(latest, *fixed_starts[i]);
    }
    domains.emplace_back(tables.starts_of(static_cast<int>(i)), earliest, latest);
  }
  return domains;
}

/// Of spans that may overlap, those that cover the same without.
std::vector<Span> joined(std::vector<Span> spans) {
  std::sort(spans.begin(), spans.end(), [](const Span& one, const Span& other) {
    return one.from < other.from;
  });
  std::vector<Span> all;
  for (const Span& one : spans) {
    if (!all.empty() && one.from <= all.back().until) {
      all.back().until = std::max(all.back().until, one.until);
    } else {
      all.push_back(one);
    }
  }
  return all;
}

class Sieve {
 public:
  Sieve(SearchTables& tables, const CostLimit& limit, const FixedStarts& fixed_starts)
      : project_(tables.project()),
        tables_(tables),
        fixed_(fixed_starts),
        domains_(start_sets(tables, limit, fixed_starts)) {}

  std::vector<StartDomain> take() {
    if (fixed_.empty() || is_empty() || !narrow()) {
      return std::move(domains_);
    }
    barred_.resize(domains_.size());
    for (std::size_t i = 0; i < domains_.size(); ++i) {
      if (!fixed_[i]) {
        barred_[i].assign(static_cast<std::size_t>(domains_[i].size()) + 1, 0);
      }
    }
    for (const Exclusion& exclusion : project_.exclusions) {
      keep_clear(exclusion.one_side, joined(fixed_spans(exclusion.other_side)));
      keep_clear(exclusion.other_side, joined(fixed_spans(exclusion.one_side)));
    }
    for (std::size_t i = 0; i < project_.resources.size(); ++i) {
      keep_within(static_cast<int>(i));
    }
    for (std::size_t i = 0; i < domains_.size(); ++i) {
      if (!fixed_[i]) {
        domains_[i] = domains_[i].without(barred_[i]);
      }
    }
    return std::move(domains_);
  }

 private:
  [[nodiscard]] bool is_empty() const {
    return std::any_of(
        domains_.begin(), domains_.end(), [](const StartDomain& one) { return one.size() == 0; });
  }

  /// Draws what follows from the lags. @return false: a domain is empty.
  bool narrow() {
    class NoReasons : public ReasonSource {
      void explain(const BoundReason&, BoundLiteral, std::vector<BoundLiteral>&) const override {}
    };
    const NoReasons none;
    BoundTrail trail;
    const StartVariables starts(domains_, trail, tables_);
    Inference inference(trail, none);
    const LagRules lags(project_, starts, {});
    if (!lags.settle(inference)) {
      domains_.front() = StartDomain(tables_.starts_of(0), 0, -1);
      return false;
    }
    for (int i = 0; i < starts.count(); ++i) {
      const auto place = static_cast<std::size_t>(i);
      if (!fixed_[place]) {
        domains_[place] = StartDomain(tables_.starts_of(i), starts.low(i), starts.high(i));
      }
    }
    return true;
  }

  [[nodiscard]] Tick moment(int activity, const Lag& lag, int index) const {
    const StartDomain& domain = domains_[static_cast<std::size_t>(activity)];
    LagMemo* memo = tables_.memo(lag, activity);
    return memo != nullptr ? memo->at(domain.number_of(index)) : lag.at(domain.tick_of(index));
  }

  [[nodiscard]] std::vector<Span> fixed_spans(const std::vector<Stretch>& side) const {
    std::vector<Span> spans;
    for (const Stretch& one : side) {
      const auto place = static_cast<std::size_t>(one.activity);
      if (const auto& start = fixed_[place]; start && domains_[place].size() > 0) {
        const Span span{*start + one.from, moment(one.activity, one.until, 0)};
        if (span.from < span.until) {
          spans.push_back(span);
        }
      }
    }
    return spans;
  }

  void keep_clear(const std::vector<Stretch>& side, const std::vector<Span>& spans) {
    for (const Stretch& one : side) {
      const auto place = static_cast<std::size_t>(one.activity);
      const int size = domains_[place].size();
      if (fixed_[place] && size > 0) {
        keep_fixed_clear(one, spans);
        continue;
      }
      LagMemo* memo = tables_.memo(one.until, one.activity);
      const StartDomain& domain = domains_[place];
      std::size_t next = 0;
      for (int i = 0; i < size; ++i) {
        const Tick start = domain.tick_of(i);
        const Tick from = start + one.from;
        const Tick until = memo != nullptr ? memo->at(domain.number_of(i)) : one.until.at(start);
        while (next < spans.size() && spans[next].until <= from) {
          ++next;
        }
        if (next == spans.size()) {
          break;
        }
        if (from < until && spans[next].from < until) {
          barred_[place][static_cast<std::size_t>(i)] = 1;
        }
      }
    }
  }

  void keep_fixed_clear(const Stretch& one, const std::vector<Span>& spans) {
    const auto place = static_cast<std::size_t>(one.activity);
    const Tick from = *fixed_[place] + one.from;
    const Tick until = moment(one.activity, one.until, 0);
    const auto next =
        std::upper_bound(spans.begin(), spans.end(), from, [](Tick at, const Span& span) {
          return at < span.until;
        });
    if (from < until && next != spans.end() && next->from < until) {
      domains_[place] = StartDomain(tables_.starts_of(one.activity), 0, -1);
    }
  }

  /// From a moment on, so much of a resource is left by what is fixed.
  std::vector<CapacityStep> left_of(int resource) const {
    std::vector<std::pair<Tick, int>> changes;
    int before = 0;
    for (const CapacityStep& step :
         project_.resources[static_cast<std::size_t>(resource)].capacity) {
      changes.emplace_back(step.at, step.capacity - before);
      before = step.capacity;
    }
    for (std::size_t i = 0; i < project_.activities.size(); ++i) {
      for (const Demand& demand : project_.activities[i].demands) {
        if (fixed_[i] && demand.resource == resource && demand.from < demand.to) {
          changes.emplace_back(*fixed_[i] + demand.from, -demand.amount);
          changes.emplace_back(*fixed_[i] + demand.to, demand.amount);
        }
      }
    }
    std::sort(changes.begin(), changes.end());
    std::vector<CapacityStep> left;
    int level = 0;
    for (const auto& [at, by] : changes) {
      level += by;
      if (!left.empty() && left.back().at == at) {
        left.back().capacity = level;
      } else {
        left.push_back({at, level});
      }
    }
    return left;
  }

  void keep_within(int resource) {
    const std::vector<CapacityStep> left = left_of(resource);
    for (std::size_t i = 0; i < project_.activities.size(); ++i) {
      for (const Demand& demand : project_.activities[i].demands) {
        if (!fixed_[i] && demand.resource == resource && demand.from < demand.to) {
          keep_within(i, demand, left);
        }
      }
    }
  }

  void keep_within(std::size_t activity,
                   const Demand& demand,
                   const std::vector<CapacityStep>& left) {
    const StartDomain& domain = domains_[activity];
    std::size_t first = 0;  // the step that holds where the demand begins
    for (int i = 0; i < domain.size(); ++i) {
      const Tick from = domain.tick_of(i) + demand.from;
      const Tick until = domain.tick_of(i) + demand.to;
      while (first + 1 < left.size() && left[first + 1].at <= from) {
        ++first;
      }
      for (std::size_t k = first; k < left.size() && left[k].at < until; ++k) {
        if (left[k].capacity < demand.amount) {
          barred_[activity][static_cast<std::size_t>(i)] = 1;
          break;
        }
      }
    }
  }

  const Project& project_;
  SearchTables& tables_;
  const FixedStarts& fixed_;
  std::vector<StartDomain> domains_;
  std::vector<std::vector<char>> barred_;  ///< Per activity that is free: its starts by index.
};

}  // namespace

std::vector<StartDomain> free_starts(SearchTables& tables,
                                     const CostLimit& limit,
                                     const FixedStarts& fixed_starts) {
  return Sieve(tables, limit, fixed_starts).take();
}

}  // namespace coatwright
