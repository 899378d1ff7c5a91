#pragma once

#include <optional>
#include <vector>

#include "scheduling/inference.h"
#include "scheduling/occupation.h"

namespace coatwright {

/// Keeps two occupations apart, for many pairs: those that are too large for one resource together,
/// and the two sides of exclusions. For pairs of fixed length their order is a variable of its own,
/// so that a search can decide and learn it.
class PairRules {
 public:
  /// Order variables are added to the trail, up to `most_orders`.
  PairRules(const Project& project,
            const StartVariables& starts,
            BoundTrail& trail,
            int most_orders);

  /// @param variable a start or an order that has moved. @return false on a contradiction.
  bool propagate(int variable, Inference& inference);
  bool propagate_all(Inference& inference);

 private:
  struct Pair {
    Occupation one;
    Occupation other;
    std::optional<int> order;  ///< 1: `one` comes first; 0: `other` does.
  };
  void add(const Occupation& one, const Occupation& other, BoundTrail& trail, int most_orders);
  void add_resource(const Project& project, int resource, BoundTrail& trail, int most_orders);
  void watch(int variable, int pair);
  bool apply(const Pair& pair, Inference& inference);
  bool apply_decided(const Pair& pair, Inference& inference);
  /// Adds why `one` cannot end by the begin of `other`. @return false when it can.
  bool cannot_precede(const Pair& pair, bool one_first, std::vector<BoundLiteral>& because) const;
  bool keep_order(const Occupation& first,
                  const Occupation& second,
                  std::vector<BoundLiteral>& because,
                  Inference& inference) const;

  const StartVariables& starts_;
  std::vector<Pair> pairs_;
  std::vector<std::vector<int>> watching_;  ///< Per variable.
  std::vector<BoundLiteral> one_first_;     ///< Why `one` cannot come first.
  std::vector<BoundLiteral> other_first_;
};

}  // namespace coatwright
