#include "scheduling/priced_relaxation.h"

#include <algorithm>
#include <tuple>

namespace coatwright {

bool PricedRelaxation::Term::operator<(const Term& with) const {
  return std::tie(moments, pool, amount) < std::tie(with.moments, with.pool, with.amount);
}

PricedRelaxation::PricedRelaxation(const Project& project,
                                   const LagNetwork& network,
                                   const Windows& windows,
                                   const std::vector<Pool>& pools,
                                   const std::vector<UsableCapacity>& usable,
                                   Tick until,
                                   int most_slots,
                                   std::int64_t most_starts)
    : forest_(project, network, windows, most_starts),
      lateness_(project.activities.size()),
      terms_(project.activities.size()) {
  while ((until >> shift_) + 1 > most_slots) {
    ++shift_;
  }
  slots_ = static_cast<std::size_t>(until >> shift_) + 1;
  for (const UsableCapacity& pool : usable) {
    const auto by_slots = pool.by_slots(Tick{1} << shift_, slots_);
    capacity_.insert(capacity_.end(), by_slots.begin(), by_slots.end());
  }
  add_terms(project, pools);
  const std::size_t count = forest_.nodes().size();
  first_.resize(count);
  last_.resize(count);
  costs_.resize(count);
  choices_.resize(count);
  chosen_.resize(count);
  keep_within(windows);
}

void PricedRelaxation::keep_within(const Windows& windows) {
  effort_ = 0;
  for (std::size_t i = 0; i < forest_.nodes().size(); ++i) {
    const LagForest::Node& node = forest_.nodes()[i];
    const auto& groups = forest_.groups(node.starts);
    const auto& starts = forest_.starts(node.starts);
    const auto first = std::lower_bound(
        groups.begin(), groups.end(), windows.low(node.activity), [&](const auto& group, Tick low) {
          return starts[group.last] < low;
        });
    const auto after = std::upper_bound(
        first, groups.end(), windows.high(node.activity), [&](Tick high, const auto& group) {
          return high < starts[group.first];
        });
    first_[i] = static_cast<int>(first - groups.begin());
    last_[i] = static_cast<int>(after - groups.begin()) - 1;
    effort_ += last_[i] - first_[i] + 1;
  }
}

int PricedRelaxation::moments_of(const Project& project, int activity, const Lag& lag) {
  const int set = project.activities[activity].starts;
  const auto [known, is_new] =
      known_moments_.try_emplace({set, lag.function.get(), lag.function ? 0 : lag.constant},
                                 static_cast<int>(moments_.size()));
  if (is_new) {
    Moments moments{set, {}};
    for (const Tick start : forest_.starts(set)) {
      moments.at.push_back(lag.at(start));
    }
    moments_.push_back(std::move(moments));
  }
  return known->second;
}

void PricedRelaxation::add_terms(const Project& project, const std::vector<Pool>& pools) {
  for (std::size_t i = 0; i < pools.size(); ++i) {
    const auto add = [&](int activity, const Lag& lag, int amount) {
      terms_[activity].push_back({moments_of(project, activity, lag), static_cast<int>(i), amount});
    };
    for (const Pool::Use& use : pools[i].uses) {
      add(use.activity, Lag{use.from}, -use.amount);
      add(use.activity, Lag{use.to}, use.amount);
    }
    for (const int index : pools[i].holds) {
      // Where it would be over before it begins it takes less than nothing here, and the bound
      // stays one.
      const Hold& hold = project.holds[index];
      add(hold.from, Lag{hold.from_offset}, -hold.amount);
      add(hold.to.value_or(hold.from), hold.to ? Lag{hold.to_offset} : hold.until, hold.amount);
    }
  }
  std::map<std::pair<int, std::vector<Term>>, int> kinds;
  for (std::size_t i = 0; i < terms_.size(); ++i) {
    std::sort(terms_[i].begin(), terms_[i].end());
    kind_.push_back(
        kinds.try_emplace({project.activities[i].starts, terms_[i]}, static_cast<int>(kinds.size()))
            .first->second);
  }
  by_kind_.resize(kinds.size());
  cheapest_.resize(kinds.size());
}

std::int64_t PricedRelaxation::paid_until(int pool, Tick moment) const {
  const std::size_t first = static_cast<std::size_t>(pool) * slots_;
  if (moment <= 0) {
    return 0;
  }
  const std::size_t slot = std::min(slots_ - 1, static_cast<std::size_t>(moment >> shift_));
  // Nothing is to be paid past the last slot.
  const Tick into = std::min(moment - (static_cast<Tick>(slot) << shift_), Tick{1} << shift_);
  return before_[first + slot] + (*prices_)[first + slot] * into;
}

/// The sums over the slots, and what each kind of activity pays at least in each group of starts.
void PricedRelaxation::add_up(const Prices& prices) {
  prices_ = &prices;
  before_.resize(prices.size());
  for (std::size_t i = 0; i < prices.size(); ++i) {
    before_[i] = i % slots_ == 0 ? 0 : before_[i - 1] + (prices[i - 1] << shift_);
  }
  std::vector<char> is_done(by_kind_.size(), 0);
  for (const LagForest::Node& node : forest_.nodes()) {
    const int kind = kind_[node.activity];
    if (is_done[kind] == 0) {
      is_done[kind] = 1;
      price_kind(node, kind);
    }
  }
}

void PricedRelaxation::price_kind(const LagForest::Node& node, int kind) {
  by_start_.assign(forest_.starts(node.starts).size(), 0);
  for (const Term& term : terms_[node.activity]) {
    const std::vector<Tick>& at = moments_[term.moments].at;
    for (std::size_t i = 0; i < by_start_.size(); ++i) {
      by_start_[i] += term.amount * paid_until(term.pool, at[i]);
    }
  }
  const auto& groups = forest_.groups(node.starts);
  by_kind_[kind].resize(groups.size());
  cheapest_[kind].resize(groups.size());
  for (std::size_t i = 0; i < groups.size(); ++i) {
    const auto first = by_start_.begin() + groups[i].first;
    const auto least = std::min_element(first, by_start_.begin() + groups[i].last + 1);
    by_kind_[kind][i] = *least;
    cheapest_[kind][i] = static_cast<int>(least - by_start_.begin());
  }
}

std::int64_t PricedRelaxation::least_cost(const Prices& prices) {
  add_up(prices);
  const auto& nodes = forest_.nodes();
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    const std::vector<std::int64_t>& own = by_kind_[kind_[nodes[i].activity]];
    costs_[i].assign(own.begin() + first_[i], own.begin() + std::max(first_[i], last_[i] + 1));
  }
  std::int64_t sum = 0;
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    price(i);
    if (nodes[i].parent >= 0) {
      hand_up(i);
      continue;
    }
    const auto least = std::min_element(costs_[i].begin(), costs_[i].end());
    if (least == costs_[i].end() || *least >= kNoCost / 2) {
      return kNoCost;
    }
    chosen_[i] = first_[i] + static_cast<int>(least - costs_[i].begin());
    sum += *least;
  }
  choose();
  find_taken();
  return sum;
}

void PricedRelaxation::price(std::size_t node) {
  const Lateness& late = lateness_[forest_.nodes()[node].activity];
  if (late.weight <= 0 || late.due >= kNeverTick) {
    return;
  }
  const int set = forest_.nodes()[node].starts;
  for (std::size_t i = 0; i < costs_[node].size(); ++i) {
    const Tick start = forest_.first_of(set, static_cast<std::size_t>(first_[node]) + i);
    costs_[node][i] += late.weight * kPriceUnit * std::max(0, start + late.tail - late.due);
  }
}

/// Adds to each group of the parent the least cost of those of the node that go with it: the
/// allowed ones move on as the parent's do, so the least of them is kept in a queue.
void PricedRelaxation::hand_up(std::size_t node) {
  const LagForest::Node& child = forest_.nodes()[node];
  const auto parent = static_cast<std::size_t>(child.parent);
  const std::int64_t* costs = costs_[node].data() - first_[node];
  std::vector<int>& choices = choices_[node];
  choices.resize(costs_[parent].size());
  queue_.resize(costs_[node].size() + 1);
  std::size_t head = 0;
  std::size_t tail = 0;
  int next = first_[node];
  for (std::size_t i = 0; i < choices.size(); ++i) {
    const std::size_t place = static_cast<std::size_t>(first_[parent]) + i;
    const int last = child.last.empty() ? last_[node] : std::min(last_[node], child.last[place]);
    for (; next <= last; ++next) {
      // What is allowed from the first on leaves the queue no more: its least is enough.
      if (child.first.empty() && tail > 0) {
        queue_[0] = costs[next] < costs[queue_[0]] ? next : queue_[0];
        continue;
      }
      while (tail > head && costs[queue_[tail - 1]] >= costs[next]) {
        --tail;
      }
      queue_[tail++] = next;
    }
    while (tail > head && !child.first.empty() && queue_[head] < child.first[place]) {
      ++head;
    }
    const std::int64_t least = head == tail ? kNoCost : costs[queue_[head]];
    choices[i] = head == tail ? first_[node] : queue_[head];
    costs_[parent][i] =
        least >= kNoCost / 2 ? kNoCost : std::min(kNoCost, costs_[parent][i] + least);
  }
}

/// From the roots, which are last, down.
void PricedRelaxation::choose() {
  const auto& nodes = forest_.nodes();
  for (std::size_t i = nodes.size(); i-- > 0;) {
    const int parent = nodes[i].parent;
    if (parent >= 0) {
      chosen_[i] = choices_[i][chosen_[parent] - first_[parent]];
    }
  }
}

void PricedRelaxation::take(const Term& term, int start) {
  const Tick moment = moments_[term.moments].at[start];
  if (moment <= 0) {
    return;
  }
  const std::size_t slot = std::min(slots_ - 1, static_cast<std::size_t>(moment >> shift_));
  const Tick into = std::min(moment - (static_cast<Tick>(slot) << shift_), Tick{1} << shift_);
  const std::size_t place = static_cast<std::size_t>(term.pool) * slots_ + slot;
  taken_[place] += std::int64_t{term.amount} * into;
  whole_[place] += std::int64_t{term.amount} << shift_;
}

void PricedRelaxation::find_taken() {
  taken_.assign(capacity_.size(), 0);
  whole_.assign(capacity_.size(), 0);
  for (std::size_t i = 0; i < chosen_.size(); ++i) {
    const int activity = forest_.nodes()[i].activity;
    for (const Term& term : terms_[activity]) {
      take(term, cheapest_[kind_[activity]][chosen_[i]]);
    }
  }
  std::int64_t later = 0;
  for (std::size_t i = taken_.size(); i-- > 0;) {
    taken_[i] += later;
    later = i % slots_ == 0 ? 0 : later + whole_[i];
  }
}

}  // namespace coatwright
