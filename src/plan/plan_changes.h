#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan/plan.h"

namespace coatwright {

/// A step as a plan is remembered by.
struct KeptStep {
  StepKind kind = StepKind::kSand;
  std::string face;
  std::string product;
  std::string product_title;
  int coat = 0;
  std::string grit;
  Time start;
  std::string revision;    ///< Of a coat's recipe; empty where an older program kept the plan.
  std::string piece = {};  ///< Empty where it was kept for one piece alone.
  std::string part = {};   ///< The same.
};

/// What is remembered of a plan, so that the next one can say what moved.
struct KeptPlan {
  Time made_at;
  std::optional<Time> finish;
  std::vector<KeptStep> steps;
};

/// The steps that a maker's day hangs on, gluing up and other work on the piece too: those that
/// were done already, and what goes along with a coat, are left out.
[[nodiscard]] KeptPlan kept_plan_of(const Plan& plan);

/// What moved by five minutes or more, came or went. A step that was done meanwhile did not move.
[[nodiscard]] PlanChanges changes_since(const KeptPlan& before, const Plan& plan);

}  // namespace coatwright
