#pragma once

#include <span>
#include <vector>

#include "scheduling/bound_trail.h"

namespace coatwright {

/// Works a reason out into the literals that, true together, made a literal true.
class ReasonSource {
 public:
  virtual ~ReasonSource() = default;
  /// @param literal at most as strong as what was inferred. @param out gets the literals.
  virtual void explain(const BoundReason& reason,
                       BoundLiteral literal,
                       std::vector<BoundLiteral>& out) const = 0;
};

/// Writes down what follows from what is known, and notices a contradiction.
class Inference {
 public:
  Inference(BoundTrail& trail, const ReasonSource& reasons) : trail_(trail), reasons_(reasons) {}

  /// Adds a bound that a clause or a lag implies. @return false on a contradiction.
  bool infer(BoundLiteral literal, BoundReason reason);
  /// Adds a bound that follows from others, all of them true.
  bool infer(BoundLiteral literal, std::span<const BoundLiteral> because);
  /// Literals that are all true and cannot be.
  bool contradict(std::span<const BoundLiteral> together);

  [[nodiscard]] const std::vector<BoundLiteral>& conflict() const { return conflict_; }
  [[nodiscard]] const BoundTrail& trail() const { return trail_; }

 private:
  BoundTrail& trail_;
  const ReasonSource& reasons_;
  std::vector<BoundLiteral> conflict_;
};

}  // namespace coatwright
