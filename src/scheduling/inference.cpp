#include "scheduling/inference.h"

namespace coatwright {

bool Inference::infer(BoundLiteral literal, BoundReason reason) {
  if (trail_.is_true(literal)) {
    return true;
  }
  if (trail_.is_false(literal)) {
    conflict_.clear();
    reasons_.explain(reason, literal, conflict_);
    conflict_.push_back(negation(literal));
    return false;
  }
  trail_.push(literal, reason, trail_.store().size());
  return true;
}

bool Inference::infer(BoundLiteral literal, std::span<const BoundLiteral> because) {
  if (trail_.is_true(literal)) {
    return true;
  }
  if (trail_.is_false(literal)) {
    conflict_.assign(because.begin(), because.end());
    conflict_.push_back(negation(literal));
    return false;
  }
  auto& store = trail_.store();
  const std::size_t begin = store.size();
  store.insert(store.end(), because.begin(), because.end());
  trail_.push(
      literal,
      {BoundReason::Kind::kStored, static_cast<int>(begin), static_cast<int>(because.size())},
      begin);
  return true;
}

bool Inference::contradict(std::span<const BoundLiteral> together) {
  conflict_.assign(together.begin(), together.end());
  return false;
}

}  // namespace coatwright
