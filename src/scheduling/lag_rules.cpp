#include "scheduling/lag_rules.h"

namespace coatwright {
namespace {

constexpr bool is_low(int side) {
  return side % 2 == 0;
}

}  // namespace

LagRules::LagRules(const Project& project,
                   const StartVariables& starts,
                   const std::vector<bool>& is_given)
    : starts_(starts), triggered_(static_cast<std::size_t>(2 * starts.count())) {
  const auto is_open = [&](const auto& lag) {
    return is_given.empty() || !is_given[static_cast<std::size_t>(lag.from)] ||
           !is_given[static_cast<std::size_t>(lag.to)];
  };
  for (const MinLag& one : project.min_lags) {
    if (is_open(one)) {
      add(2 * one.from, 2 * one.to, one.lag);
    }
  }
  for (const MaxLag& one : project.max_lags) {
    if (is_open(one)) {
      add(2 * one.from + 1, 2 * one.to + 1, one.lag);
    }
  }
}

/// A minimum lag moves early starts forward and late starts backward; a maximum lag the other way.
void LagRules::add(int from_side, int to_side, const Lag& lag) {
  const auto note = [&](int trigger, int target, bool forward) {
    triggered_[static_cast<std::size_t>(trigger)].push_back(static_cast<int>(rules_.size()));
    const int counts_from = (forward ? trigger : target) / 2;
    rules_.push_back({trigger, target, starts_.known({counts_from, lag}), forward});
  };
  note(from_side, to_side, true);
  note(to_side ^ 1, from_side ^ 1, false);
}

bool LagRules::propagate(int side, Inference& inference) const {
  if (side >= static_cast<int>(triggered_.size())) {
    return true;
  }
  for (const int rule : triggered_[static_cast<std::size_t>(side)]) {
    if (!apply(rule, inference)) {
      return false;
    }
  }
  return true;
}

bool LagRules::settle(Inference& inference) const {
  if (!propagate_all(inference)) {
    return false;
  }
  for (int head = 0; head < inference.trail().size(); ++head) {
    if (!propagate(inference.trail().entry(head).literal.side, inference)) {
      return false;
    }
  }
  return true;
}

bool LagRules::propagate_all(Inference& inference) const {
  for (int rule = 0; rule < static_cast<int>(rules_.size()); ++rule) {
    if (!apply(rule, inference)) {
      return false;
    }
  }
  return true;
}

bool LagRules::apply(int rule, Inference& inference) const {
  const Rule& one = rules_[static_cast<std::size_t>(rule)];
  const int trigger = one.trigger / 2;
  const int target = one.target / 2;
  BoundLiteral implied;
  if (one.forward) {
    const Tick moment = is_low(one.trigger) ? starts_.low(one.moment) : starts_.high(one.moment);
    implied =
        is_low(one.target) ? starts_.not_before(target, moment) : starts_.not_after(target, moment);
  } else {
    const Tick moved = is_low(one.trigger) ? starts_.low(trigger) : starts_.high(trigger);
    implied = is_low(one.target) ? starts_.not_before(one.moment, moved)
                                 : starts_.not_after(one.moment, moved);
  }
  return inference.infer(implied, {BoundReason::Kind::kLag, rule, 0});
}

BoundLiteral LagRules::reason_of(int rule, BoundLiteral literal) const {
  const Rule& one = rules_[static_cast<std::size_t>(rule)];
  const int trigger = one.trigger / 2;
  const StartDomain& domain = starts_.domain(literal.variable());
  // The weakest literal that still implies this one: the start next to the bound must be ruled out.
  if (one.forward) {
    if (is_low(literal.side)) {
      return starts_.not_before(one.moment, domain.tick_of(literal.value - 1) + 1);
    }
    return starts_.not_after(one.moment, domain.tick_of(-literal.value + 1) - 1);
  }
  if (is_low(literal.side)) {
    return starts_.not_before(trigger, starts_.moment(one.moment, literal.value - 1) + 1);
  }
  return starts_.not_after(trigger, starts_.moment(one.moment, -literal.value + 1) - 1);
}

}  // namespace coatwright
