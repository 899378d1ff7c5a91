#include "scheduling/lag_rules.h"

namespace coatwright {
namespace {

constexpr bool is_low(int side) {
  return side % 2 == 0;
}

}  // namespace

LagRules::LagRules(const Project& project, const StartVariables& starts)
    : starts_(starts), triggered_(static_cast<std::size_t>(2 * starts.count())) {
  for (const MinLag& one : project.min_lags) {
    add(2 * one.from, 2 * one.to, one.lag);
  }
  for (const MaxLag& one : project.max_lags) {
    add(2 * one.from + 1, 2 * one.to + 1, one.lag);
  }
}

/// A minimum lag moves early starts forward and late starts backward; a maximum lag the other way.
void LagRules::add(int from_side, int to_side, const Lag& lag) {
  const auto note = [&](int trigger, int target, bool forward) {
    triggered_[static_cast<std::size_t>(trigger)].push_back(static_cast<int>(rules_.size()));
    rules_.push_back({trigger, target, lag, forward});
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
  const Tick moved = is_low(one.trigger) ? starts_.low(trigger) : starts_.high(trigger);
  BoundLiteral implied;
  if (one.forward) {
    const Tick moment = one.lag.at(moved);
    implied =
        is_low(one.target) ? starts_.not_before(target, moment) : starts_.not_after(target, moment);
  } else {
    const Endpoint from{target, one.lag};
    implied = is_low(one.target) ? starts_.not_before(from, moved) : starts_.not_after(from, moved);
  }
  return inference.infer(implied, {BoundReason::Kind::kLag, rule, 0});
}

BoundLiteral LagRules::reason_of(int rule, BoundLiteral literal) const {
  const Rule& one = rules_[static_cast<std::size_t>(rule)];
  const int trigger = one.trigger / 2;
  const StartDomain& domain = starts_.domain(literal.variable());
  // The weakest literal that still implies this one: the start next to the bound must be ruled out.
  if (one.forward) {
    const Endpoint from{trigger, one.lag};
    if (is_low(literal.side)) {
      return starts_.not_before(from, domain.tick_of(literal.value - 1) + 1);
    }
    return starts_.not_after(from, domain.tick_of(-literal.value + 1) - 1);
  }
  if (is_low(literal.side)) {
    return starts_.not_before(trigger, one.lag.at(domain.tick_of(literal.value - 1)) + 1);
  }
  return starts_.not_after(trigger, one.lag.at(domain.tick_of(-literal.value + 1)) - 1);
}

}  // namespace coatwright
