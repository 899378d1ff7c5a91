#pragma once

#include <vector>

#include "scheduling/inference.h"
#include "scheduling/start_variables.h"

namespace coatwright {

/// Keeps minimum and maximum lags: each moves the early or the late starts of one activity by those
/// of another.
class LagRules {
 public:
  /// @param is_given per activity: whether its start is known, and the lags between such are kept;
  /// empty: none is.
  LagRules(const Project& project, const StartVariables& starts, const std::vector<bool>& is_given);

  /// Follows the lags from one side of a variable that has moved. @return false on a contradiction.
  bool propagate(int side, Inference& inference) const;
  /// All that follows from the lags alone, at the root. @return false on a contradiction.
  bool settle(Inference& inference) const;
  /// All lags once, at the root.
  bool propagate_all(Inference& inference) const;
  /// The literal from which another follows by a rule.
  [[nodiscard]] BoundLiteral reason_of(int rule, BoundLiteral literal) const;

 private:
  /// `target` moves when `trigger` does.
  struct Rule {
    int trigger;  ///< Side of the variable that moves it.
    int target;
    Endpoint moment;  ///< What the lag gives, from the activity that it counts from.
    bool forward;     ///< It counts from the trigger; else from the target.
  };
  void add(int from_side, int to_side, const Lag& lag);
  bool apply(int rule, Inference& inference) const;

  const StartVariables& starts_;
  std::vector<Rule> rules_;
  std::vector<std::vector<int>> triggered_;  ///< Per side: rules.
};

}  // namespace coatwright
