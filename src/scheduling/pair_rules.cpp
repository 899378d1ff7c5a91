#include "scheduling/pair_rules.h"

#include <algorithm>

namespace coatwright {
namespace {

// Of one resource: more are slower to follow than they save, and the time table keeps them apart
// too.
constexpr std::size_t kMostPairs = 8000;

bool takes_time(const Occupation& one, const StartVariables& starts) {
  return !one.has_fixed_length() || starts.low(one.end) > starts.low(one.begin);
}

/// Of two that are fixed: those that overlap are kept, for the search to contradict.
bool are_apart(const Occupation& one, const Occupation& other, const StartVariables& starts) {
  return starts.low(one.end) <= starts.low(other.begin) ||
         starts.low(other.end) <= starts.low(one.begin);
}

}  // namespace

PairRules::PairRules(const Project& project,
                     const StartVariables& starts,
                     BoundTrail& trail,
                     int most_orders)
    : starts_(starts) {
  for (std::size_t i = 0; i < project.resources.size(); ++i) {
    add_resource(project, static_cast<int>(i), trail, most_orders);
  }
  for (const Exclusion& exclusion : project.exclusions) {
    for (const Stretch& one : exclusion.one_side) {
      for (const Stretch& other : exclusion.other_side) {
        add(occupation_of(one), occupation_of(other), trail, most_orders);
      }
    }
  }
}

void PairRules::add_resource(const Project& project,
                             int resource,
                             BoundTrail& trail,
                             int most_orders) {
  int most = 0;
  for (const CapacityStep& step : project.resources[static_cast<std::size_t>(resource)].capacity) {
    most = std::max(most, step.capacity);
  }
  // A hold may take no time at all, and what is fixed leaves nothing to decide: the table serves.
  std::vector<Occupation> open = occupations_of(project, resource);
  std::erase_if(open, [&](const Occupation& one) {
    return !one.has_fixed_length() || trail.is_fixed(one.begin.variable);
  });
  std::vector<std::pair<std::size_t, std::size_t>> apart;
  for (std::size_t i = 0; i < open.size(); ++i) {
    for (std::size_t j = i + 1; j < open.size(); ++j) {
      if (open[i].amount + open[j].amount > most) {
        apart.emplace_back(i, j);
      }
    }
  }
  if (apart.size() > kMostPairs) {
    return;
  }
  for (const auto& [i, j] : apart) {
    add(open[i], open[j], trail, most_orders);
  }
}

void PairRules::add(const Occupation& one,
                    const Occupation& other,
                    BoundTrail& trail,
                    int most_orders) {
  const bool same = one.begin.variable == other.begin.variable ||
                    one.begin.variable == other.end.variable ||
                    one.end.variable == other.begin.variable;
  const bool settled = trail.is_fixed(one.begin.variable) && trail.is_fixed(one.end.variable) &&
                       trail.is_fixed(other.begin.variable) && trail.is_fixed(other.end.variable) &&
                       are_apart(one, other, starts_);
  // Demands of one activity, or a hold and what it hangs on, are left to the time table.
  if (same || settled || !takes_time(one, starts_) || !takes_time(other, starts_)) {
    return;
  }
  Pair pair{one, other, std::nullopt};
  const int orders = trail.variables() - starts_.count();
  if (one.has_fixed_length() && other.has_fixed_length() && orders < most_orders) {
    pair.order = trail.add_variable(1);
    watch(*pair.order, static_cast<int>(pairs_.size()));
  }
  for (const int variable :
       {one.begin.variable, one.end.variable, other.begin.variable, other.end.variable}) {
    watch(variable, static_cast<int>(pairs_.size()));
  }
  pairs_.push_back(std::move(pair));
}

void PairRules::watch(int variable, int pair) {
  const auto place = static_cast<std::size_t>(variable);
  watching_.resize(std::max(watching_.size(), place + 1));
  auto& list = watching_[place];
  if (list.empty() || list.back() != pair) {
    list.push_back(pair);
  }
}

bool PairRules::propagate(int variable, Inference& inference) {
  if (variable >= static_cast<int>(watching_.size())) {
    return true;
  }
  for (const int pair : watching_[static_cast<std::size_t>(variable)]) {
    if (!apply(pairs_[static_cast<std::size_t>(pair)], inference)) {
      return false;
    }
  }
  return true;
}

bool PairRules::propagate_all(Inference& inference) {
  return std::all_of(
      pairs_.begin(), pairs_.end(), [&](const Pair& pair) { return apply(pair, inference); });
}

bool PairRules::cannot_precede(const Pair& pair,
                               bool one_first,
                               std::vector<BoundLiteral>& because) const {
  because.clear();
  const Endpoint& end = one_first ? pair.one.end : pair.other.end;
  const Endpoint& begin = one_first ? pair.other.begin : pair.one.begin;
  const Tick latest = starts_.high(begin);
  if (starts_.low(end) <= latest) {
    return false;
  }
  because.push_back(starts_.not_before(end, latest + 1));
  because.push_back(starts_.not_after(begin, latest));
  return true;
}

bool PairRules::keep_order(const Occupation& first,
                           const Occupation& second,
                           std::vector<BoundLiteral>& because,
                           Inference& inference) const {
  const Tick earliest = starts_.low(first.end);
  because.push_back(starts_.not_before(first.end, earliest));
  if (!inference.infer(starts_.not_before(second.begin, earliest), because)) {
    return false;
  }
  const Tick latest = starts_.high(second.begin);
  because.back() = starts_.not_after(second.begin, latest);
  return inference.infer(starts_.not_after(first.end, latest), because);
}

bool PairRules::apply(const Pair& pair, Inference& inference) {
  const BoundTrail& trail = inference.trail();
  if (pair.order && trail.is_fixed(*pair.order)) {
    return apply_decided(pair, inference);
  }
  if (starts_.low(pair.one.end) <= starts_.high(pair.other.begin) &&
      starts_.low(pair.other.end) <= starts_.high(pair.one.begin)) {
    return true;
  }
  const bool other_first = cannot_precede(pair, true, one_first_);
  const bool one_first = cannot_precede(pair, false, other_first_);
  if (one_first && other_first) {
    one_first_.insert(one_first_.end(), other_first_.begin(), other_first_.end());
    return inference.contradict(one_first_);
  }
  if (pair.order) {
    const BoundLiteral order = one_first ? at_least(*pair.order, 1) : at_most(*pair.order, 0);
    return inference.infer(order, one_first ? other_first_ : one_first_) &&
           apply_decided(pair, inference);
  }
  return one_first ? keep_order(pair.one, pair.other, other_first_, inference)
                   : keep_order(pair.other, pair.one, one_first_, inference);
}

bool PairRules::apply_decided(const Pair& pair, Inference& inference) {
  const bool one_first = inference.trail().low(*pair.order) == 1;
  const Occupation& first = one_first ? pair.one : pair.other;
  const Occupation& second = one_first ? pair.other : pair.one;
  if (starts_.high(first.end) <= starts_.low(second.begin)) {
    return true;
  }
  one_first_.assign(1, one_first ? at_least(*pair.order, 1) : at_most(*pair.order, 0));
  return keep_order(first, second, one_first_, inference);
}

}  // namespace coatwright
