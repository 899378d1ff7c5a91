#include "plan/plan_changes.h"

#include <algorithm>

namespace coatwright {
namespace {

constexpr std::chrono::minutes kMoved{5};

bool is_kept(StepKind kind) {
  return kind == StepKind::kSample || kind == StepKind::kSand || kind == StepKind::kRaiseGrain ||
         kind == StepKind::kApply || kind == StepKind::kAbrade || kind == StepKind::kFlip;
}

KeptStep kept(const PlanStep& step) {
  return {step.kind, step.face, step.product, step.product_title, step.coat, step.grit, step.start};
}

bool is_same(const KeptStep& a, const KeptStep& b) {
  return a.kind == b.kind && a.face == b.face && a.product == b.product && a.coat == b.coat &&
         a.grit == b.grit;
}

/// Whether a logged step is one that was planned. The log names no product or coat but for coats.
bool was_done(const KeptStep& planned, const KeptStep& logged) {
  const bool same_coat = planned.product == logged.product && planned.coat == logged.coat;
  return planned.kind == logged.kind && planned.grit == logged.grit &&
         planned.face == logged.face && (planned.kind != StepKind::kApply || same_coat);
}

/// Takes the first step that is the same out of a list.
std::optional<KeptStep> take(const KeptStep& wanted, std::vector<KeptStep>& from) {
  const auto found = std::find_if(
      from.begin(), from.end(), [&](const KeptStep& one) { return is_same(one, wanted); });
  if (found == from.end()) {
    return std::nullopt;
  }
  KeptStep step = std::move(*found);
  from.erase(found);
  return step;
}

PlanChange change_of(const KeptStep& step, std::optional<Time> was, std::optional<Time> is) {
  return {step.kind, step.product_title, step.coat, step.face, step.grit, was, is};
}

/// A coat wetted in sections is one.
bool is_section(const KeptStep& step, const std::vector<KeptStep>& steps) {
  return step.kind == StepKind::kApply && !steps.empty() && is_same(step, steps.back());
}

std::vector<KeptStep> done_in(const Plan& plan) {
  std::vector<KeptStep> steps;
  for (const PlanStep& step : plan.steps) {
    if (step.done && is_kept(step.kind)) {
      steps.push_back(kept(step));
    }
  }
  return steps;
}

}  // namespace

KeptPlan kept_plan_of(const Plan& plan) {
  KeptPlan whole{plan.made_at, plan.finish, {}};
  for (const PlanStep& step : plan.steps) {
    if (!step.done && is_kept(step.kind) && !is_section(kept(step), whole.steps)) {
      whole.steps.push_back(kept(step));
    }
  }
  return whole;
}

PlanChanges changes_since(const KeptPlan& before, const Plan& plan) {
  PlanChanges changes{before.made_at, before.finish, {}};
  std::vector<KeptStep> left = before.steps;
  for (const KeptStep& step : kept_plan_of(plan).steps) {
    const auto was = take(step, left);
    if (!was) {
      changes.steps.push_back(change_of(step, std::nullopt, step.start));
    } else if (std::chrono::abs(was->start - step.start) >= kMoved) {
      changes.steps.push_back(change_of(step, was->start, step.start));
    }
  }
  for (const KeptStep& done : done_in(plan)) {
    const auto found = std::find_if(
        left.begin(), left.end(), [&](const KeptStep& one) { return was_done(one, done); });
    if (found != left.end()) {
      left.erase(found);
    }
  }
  for (const KeptStep& gone : left) {
    changes.steps.push_back(change_of(gone, gone.start, std::nullopt));
  }
  return changes;
}

}  // namespace coatwright
