#pragma once

#include <vector>

#include "scheduling/inference.h"

namespace coatwright {

/// Clauses that conflicts have taught: at least one literal of each is true. Two literals of each
/// are watched, so that a bound that moves looks at few of them. Source: [ohrimenko2009].
class LearnedClauses {
 public:
  explicit LearnedClauses(int variables) : watching_(static_cast<std::size_t>(2 * variables)) {}

  /// Adds a clause whose first literal is about to be inferred from it, and whose second was the
  /// last to become false. @return its id.
  int add(std::vector<BoundLiteral> literals);
  /// Looks at what a side that has moved may have made false. @return false on a contradiction.
  bool propagate(int side, Inference& inference);
  /// The literals that were all true and made another one true.
  void explain(int clause, BoundLiteral literal, std::vector<BoundLiteral>& out) const;
  /// It took part in a conflict.
  void bump(int clause);
  /// Forgets the half that has been useful least, when there are too many. Only at the root.
  void reduce(const BoundTrail& trail);
  [[nodiscard]] std::size_t count() const { return clauses_.size(); }

 private:
  struct Clause {
    std::vector<BoundLiteral> literals;
    double activity = 0.0;
  };
  /// The clause's literal is false when the bound on the side is at least `from`.
  struct Watch {
    int clause;
    int from;
    BoundLiteral blocker;  ///< Another of its literals: true, and there is nothing to do.
  };
  void watch(int clause, BoundLiteral literal, BoundLiteral blocker);

  std::vector<Clause> clauses_;
  std::vector<std::vector<Watch>> watching_;  ///< Per side that makes a literal false.
  double step_ = 1.0;
  std::size_t most_ = 4000;
};

}  // namespace coatwright
