#include "scheduling/learned_clauses.h"

#include <algorithm>

namespace coatwright {
namespace {

constexpr double kDecay = 0.999;
constexpr double kLargest = 1e100;
constexpr double kGrowth = 1.1;

}  // namespace

void LearnedClauses::watch(int clause, BoundLiteral literal, BoundLiteral blocker) {
  const BoundLiteral makes_false = negation(literal);
  watching_[static_cast<std::size_t>(makes_false.side)].push_back(
      {clause, makes_false.value, blocker});
}

int LearnedClauses::add(std::vector<BoundLiteral> literals) {
  const int id = static_cast<int>(clauses_.size());
  if (literals.size() > 1) {
    watch(id, literals[0], literals[1]);
    watch(id, literals[1], literals[0]);
  }
  clauses_.push_back({std::move(literals), step_});
  return id;
}

bool LearnedClauses::propagate(int side, Inference& inference) {
  const BoundTrail& trail = inference.trail();
  auto& watches = watching_[static_cast<std::size_t>(side)];
  std::size_t kept = 0;
  for (std::size_t i = 0; i < watches.size(); ++i) {
    const Watch one = watches[i];
    if (!trail.is_true({side, one.from}) || trail.is_true(one.blocker)) {
      watches[kept++] = one;
      continue;
    }
    auto& literals = clauses_[static_cast<std::size_t>(one.clause)].literals;
    const BoundLiteral fallen = negation({side, one.from});
    if (literals[0].side == fallen.side && literals[0].value == fallen.value) {
      std::swap(literals[0], literals[1]);
    }
    const auto next = std::find_if(literals.begin() + 2, literals.end(), [&](BoundLiteral other) {
      return !trail.is_false(other);
    });
    if (next != literals.end() && !trail.is_true(literals[0])) {
      std::swap(literals[1], *next);
      watch(one.clause, literals[1], literals[0]);
      continue;
    }
    watches[kept++] = {one.clause, one.from, literals[0]};
    if (!inference.infer(literals[0], {BoundReason::Kind::kClause, one.clause, 0})) {
      std::copy(watches.begin() + static_cast<std::ptrdiff_t>(i) + 1,
                watches.end(),
                watches.begin() + static_cast<std::ptrdiff_t>(kept));
      watches.resize(kept + watches.size() - i - 1);
      return false;
    }
  }
  watches.resize(kept);
  return true;
}

void LearnedClauses::explain(int clause,
                             BoundLiteral literal,
                             std::vector<BoundLiteral>& out) const {
  for (const BoundLiteral one : clauses_[static_cast<std::size_t>(clause)].literals) {
    if (one.side != literal.side || one.value < literal.value) {
      out.push_back(negation(one));
    }
  }
}

void LearnedClauses::bump(int clause) {
  Clause& one = clauses_[static_cast<std::size_t>(clause)];
  one.activity += step_;
  step_ /= kDecay;
  if (step_ > kLargest) {
    for (Clause& other : clauses_) {
      other.activity /= kLargest;
    }
    step_ /= kLargest;
  }
}

void LearnedClauses::reduce(const BoundTrail& trail) {
  if (clauses_.size() < most_) {
    return;
  }
  most_ = static_cast<std::size_t>(static_cast<double>(most_) * kGrowth);
  std::vector<double> activities;
  for (const Clause& one : clauses_) {
    activities.push_back(one.activity);
  }
  const auto middle = activities.begin() + static_cast<std::ptrdiff_t>(activities.size() / 2);
  std::nth_element(activities.begin(), middle, activities.end());
  const double least = *middle;
  std::vector<Clause> kept;
  for (Clause& one : clauses_) {
    const bool holds = std::any_of(one.literals.begin(),
                                   one.literals.end(),
                                   [&](BoundLiteral literal) { return trail.is_true(literal); });
    if (!holds && (one.literals.size() <= 2 || one.activity >= least)) {
      // All that follows at the root has been drawn: two literals or more are left.
      std::erase_if(one.literals, [&](BoundLiteral literal) { return trail.is_false(literal); });
      kept.push_back(std::move(one));
    }
  }
  clauses_.clear();
  for (auto& watches : watching_) {
    watches.clear();
  }
  for (Clause& one : kept) {
    const double activity = one.activity;
    const int id = add(std::move(one.literals));
    clauses_[static_cast<std::size_t>(id)].activity = activity;
  }
}

}  // namespace coatwright
