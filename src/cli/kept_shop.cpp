#include "cli/kept_shop.h"

#include <algorithm>

namespace coatwright {
namespace {

/// Adds the plan kept of a piece to that of all.
void add_kept(const std::string& piece, const KeptPlan& one, KeptPlan& all) {
  all.made_at = std::max(all.made_at, one.made_at);
  all.finish =
      all.finish && one.finish ? std::optional(std::max(*all.finish, *one.finish)) : std::nullopt;
  for (KeptStep step : one.steps) {
    step.piece = piece;
    step.part = step.part.empty() ? "all" : step.part;
    all.steps.push_back(std::move(step));
  }
}

}  // namespace

Result<std::optional<KeptPlan>> kept_plan_of_shop(const ShopRequest& request, const Store& store) {
  std::optional<KeptPlan> all;
  for (const JobRequest& job : request.jobs) {
    const auto one = store.kept_plan(job.name);
    if (!one) {
      return pass_on(one.error());
    }
    if (!*one) {
      continue;
    }
    if (!all) {
      all = KeptPlan{(*one)->made_at, (*one)->finish, {}};
    }
    add_kept(job.name, **one, *all);
  }
  return all;
}

Plan plan_as_kept(const KeptPlan& kept) {
  Plan plan;
  plan.made_at = kept.made_at;
  plan.finish = kept.finish;
  for (const KeptStep& one : kept.steps) {
    PlanStep step;
    step.piece = one.piece;
    step.part = one.part;
    step.kind = one.kind;
    step.face = one.face;
    step.product = one.product;
    step.product_title = one.product_title;
    step.coat = one.coat;
    step.grit = one.grit;
    step.start = one.start;
    step.end = one.start;
    step.revision = one.revision;
    plan.steps.push_back(std::move(step));
  }
  return plan;
}

Result<void> keep_shop_plan(const Plan& plan, Store& store) {
  const KeptPlan all = kept_plan_of(plan);
  for (const PlanPiece& piece : plan.pieces) {
    KeptPlan one{all.made_at, piece.finish, all.steps};
    std::erase_if(one.steps, [&](const KeptStep& step) { return step.piece != piece.name; });
    if (const auto kept = store.keep_plan(piece.name, one); !kept) {
      return kept;
    }
  }
  return {};
}

}  // namespace coatwright
