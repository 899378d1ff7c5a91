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

}  // namespace

PairRules::PairRules(const Project& project,
                     const StartVariables& starts,
                     const std::vector<bool>& is_given,
                     BoundTrail& trail,
                     int most_orders)
    : starts_(starts), is_given_(is_given), watching_(static_cast<std::size_t>(starts.count())) {
  for (std::size_t i = 0; i < project.resources.size(); ++i) {
    add_resource(project, static_cast<int>(i), trail, most_orders);
  }
  for (const Exclusion& exclusion : project.exclusions) {
    add_exclusion(exclusion, trail, most_orders);
  }
}

std::size_t PairRules::add_occupation(Occupation one) {
  one.end = starts_.known(one.end);
  occupations_.push_back(std::move(one));
  return occupations_.size() - 1;
}

void PairRules::add_exclusion(const Exclusion& exclusion, BoundTrail& trail, int most_orders) {
  std::vector<std::size_t> others;
  for (const Stretch& other : exclusion.other_side) {
    if (!is_given(other.activity)) {
      others.push_back(add_occupation(occupation_of(other)));
    }
  }
  for (const Stretch& stretch : exclusion.one_side) {
    if (is_given(stretch.activity)) {
      continue;
    }
    const std::size_t one = add_occupation(occupation_of(stretch));
    for (const std::size_t other : others) {
      add(one, other, trail, most_orders);
    }
  }
}

void PairRules::add_resource(const Project& project,
                             int resource,
                             BoundTrail& trail,
                             int most_orders) {
  const int most = most_of(project.resources[static_cast<std::size_t>(resource)].capacity);
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
  if (apart.empty()) {
    return;
  }
  const std::size_t first = occupations_.size();
  for (Occupation& one : open) {
    add_occupation(std::move(one));
  }
  for (const auto& [i, j] : apart) {
    add(first + i, first + j, trail, most_orders);
  }
}

/// Whatever starts are left, the two are apart. Of two that are fixed those that overlap are not:
/// they are kept, for the search to contradict.
bool PairRules::is_settled(const Occupation& one,
                           const Occupation& other,
                           const BoundTrail& trail) const {
  const auto is_before = [&](const Endpoint& end, const Endpoint& begin) {
    return starts_.moment(end, trail.high(end.variable)) <= starts_.low(begin);
  };
  return is_before(one.end, other.begin) || is_before(other.end, one.begin);
}

void PairRules::add(std::size_t first, std::size_t second, BoundTrail& trail, int most_orders) {
  const Occupation& one = occupations_[first];
  const Occupation& other = occupations_[second];
  // Demands of one activity are left to the time table.
  if (variable_of(first) == variable_of(second) || is_settled(one, other, trail) ||
      !takes_time(one, starts_) || !takes_time(other, starts_)) {
    return;
  }
  const int place = static_cast<int>(pairs_.size());
  Pair pair{first, second, kNoOrder};
  if (static_cast<int>(ordered_.size()) < most_orders) {
    pair.order = trail.add_variable(1);
    ordered_.push_back(place);
  }
  watching_[static_cast<std::size_t>(variable_of(first))].push_back({place, true});
  watching_[static_cast<std::size_t>(variable_of(second))].push_back({place, false});
  pairs_.push_back(pair);
}

bool PairRules::propagate(int side, Inference& inference) {
  const int order = side / 2 - starts_.count();
  if (order < 0) {
    return follow_start(side, inference);
  }
  return apply_decided(pairs_[static_cast<std::size_t>(ordered_[static_cast<std::size_t>(order)])],
                       inference);
}

/// A start that can no longer be early is one that ends late: it only matters to those after it.
/// One that can no longer be late matters to those before it.
bool PairRules::follow_start(int side, Inference& inference) {
  const BoundTrail& trail = inference.trail();
  const bool as_first = side % 2 == 0;
  for (const Watch watch : watching_[static_cast<std::size_t>(side / 2)]) {
    const Pair& pair = pairs_[static_cast<std::size_t>(watch.pair)];
    const bool one_is_first = watch.is_one == as_first;
    if (is_decided(pair, trail)) {
      if ((trail.low(pair.order) == 1) == one_is_first && !apply_decided(pair, inference)) {
        return false;
      }
      continue;
    }
    const Occupation& first = occupations_[one_is_first ? pair.one : pair.other];
    const Occupation& second = occupations_[one_is_first ? pair.other : pair.one];
    if (starts_.low(first.end) > starts_.high(second.begin) &&
        !decide(pair, !one_is_first, inference)) {
      return false;
    }
    // Without an order variable what was decided before is drawn from again.
    if (pair.order == kNoOrder && starts_.low(second.end) > starts_.high(first.begin) &&
        !decide(pair, one_is_first, inference)) {
      return false;
    }
  }
  return true;
}

bool PairRules::propagate_all(Inference& inference) {
  for (int start = 0; start < starts_.count(); ++start) {
    if (!follow_start(2 * start, inference) || !follow_start(2 * start + 1, inference)) {
      return false;
    }
  }
  return true;
}

void PairRules::explain_not_before(const Occupation& first, const Occupation& second) {
  const Tick latest = starts_.high(second.begin);
  because_.push_back(starts_.not_before(first.end, latest + 1));
  because_.push_back(starts_.not_after(second.begin, latest));
}

bool PairRules::keep_order(const Occupation& first,
                           const Occupation& second,
                           Inference& inference) {
  const Tick earliest = starts_.low(first.end);
  if (earliest > starts_.low(second.begin)) {
    because_.push_back(starts_.not_before(first.end, earliest));
    if (!inference.infer(starts_.not_before(second.begin, earliest), because_)) {
      return false;
    }
    because_.pop_back();
  }
  const Tick latest = starts_.high(second.begin);
  if (latest >= starts_.high(first.end)) {
    return true;
  }
  because_.push_back(starts_.not_after(second.begin, latest));
  return inference.infer(starts_.not_after(first.end, latest), because_);
}

bool PairRules::decide(const Pair& pair, bool one_first, Inference& inference) {
  const Occupation& first = occupations_[one_first ? pair.one : pair.other];
  const Occupation& second = occupations_[one_first ? pair.other : pair.one];
  because_.clear();
  explain_not_before(second, first);
  if (pair.order == kNoOrder) {
    return keep_order(first, second, inference);
  }
  const BoundLiteral order = one_first ? at_least(pair.order, 1) : at_most(pair.order, 0);
  return inference.infer(order, because_) && apply_decided(pair, inference);
}

bool PairRules::apply_decided(const Pair& pair, Inference& inference) {
  const bool one_first = inference.trail().low(pair.order) == 1;
  const Occupation& first = occupations_[one_first ? pair.one : pair.other];
  const Occupation& second = occupations_[one_first ? pair.other : pair.one];
  if (starts_.high(first.end) <= starts_.low(second.begin)) {
    return true;
  }
  because_.assign(1, one_first ? at_least(pair.order, 1) : at_most(pair.order, 0));
  return keep_order(first, second, inference);
}

}  // namespace coatwright
