#pragma once

#include <vector>

#include "scheduling/inference.h"
#include "scheduling/occupation.h"

namespace coatwright {

/// Keeps two occupations apart, for many pairs: those that are too large for one resource together,
/// and the two sides of exclusions. Their order is a variable of its own, so that a search can
/// decide and learn it.
class PairRules {
 public:
  /// Order variables are added to the trail, up to `most_orders`. @param is_given per activity:
  /// whether the starts of others have been cleared of what it rules out; empty: of none.
  PairRules(const Project& project,
            const StartVariables& starts,
            const std::vector<bool>& is_given,
            BoundTrail& trail,
            int most_orders);

  /// @param side of a start or of an order, that has moved. @return false on a contradiction.
  bool propagate(int side, Inference& inference);
  bool propagate_all(Inference& inference);

 private:
  struct Pair {
    std::size_t one;  ///< Indices into occupations_.
    std::size_t other;
    int order;  ///< A variable. 1: `one` comes first; 0: `other` does. kNoOrder: none.
  };
  static constexpr int kNoOrder = -1;
  [[nodiscard]] bool is_given(int activity) const {
    return !is_given_.empty() && is_given_[static_cast<std::size_t>(activity)];
  }
  std::size_t add_occupation(Occupation one);
  void add(std::size_t one, std::size_t other, BoundTrail& trail, int most_orders);
  [[nodiscard]] bool is_settled(const Occupation& one,
                                const Occupation& other,
                                const BoundTrail& trail) const;
  void add_resource(const Project& project, int resource, BoundTrail& trail, int most_orders);
  void add_exclusion(const Exclusion& exclusion, BoundTrail& trail, int most_orders);
  /// Of a pair: the one whose start is watched, and the one beside it.
  struct Watch {
    int pair;
    bool is_one;
  };
  [[nodiscard]] int variable_of(std::size_t occupation) const {
    return occupations_[occupation].begin.variable;
  }
  /// Whether the order is known, and then which comes first: `one` or `other`.
  [[nodiscard]] bool is_decided(const Pair& pair, const BoundTrail& trail) const {
    return pair.order != kNoOrder && trail.is_fixed(pair.order);
  }
  bool follow_start(int side, Inference& inference);
  /// One of them can no longer come before the other. @param one_first which of them does, then.
  bool decide(const Pair& pair, bool one_first, Inference& inference);
  bool apply_decided(const Pair& pair, Inference& inference);
  /// Adds why the first cannot end by the begin of the second.
  void explain_not_before(const Occupation& first, const Occupation& second);
  /// Draws what follows from an order, for which because_ says why it holds.
  bool keep_order(const Occupation& first, const Occupation& second, Inference& inference);

  const StartVariables& starts_;
  const std::vector<bool>& is_given_;
  std::vector<Occupation> occupations_;
  std::vector<Pair> pairs_;
  std::vector<std::vector<Watch>> watching_;  ///< Per start.
  std::vector<int> ordered_;                  ///< Per order variable: its pair.
  std::vector<BoundLiteral> because_;
};

}  // namespace coatwright
