#include "plan/plan_changes.h"

#include <algorithm>

namespace coatwright {
namespace {

constexpr std::chrono::minutes kMoved{5};

bool is_kept(StepKind kind) {
  switch (kind) {
    case StepKind::kSample:
    case StepKind::kSand:
    case StepKind::kRaiseGrain:
    case StepKind::kApply:
    case StepKind::kAbrade:
    case StepKind::kFlip:
    case StepKind::kGlue:
    case StepKind::kDryFit:
    case StepKind::kMask:
    case StepKind::kUnmask:
    case StepKind::kAssemble:
    case StepKind::kHardware:
    case StepKind::kInspect:
    case StepKind::kDeliver:
      return true;
    default:
      return false;
  }
}

KeptStep kept(const PlanStep& step) {
  return {step.kind,
          step.face,
          step.product,
          step.product_title,
          step.coat,
          step.grit,
          step.start,
          step.revision,
          step.piece,
          step.part};
}

/// A plan that was kept for one piece alone names neither piece nor part.
bool is_of_same_part(const KeptStep& a, const KeptStep& b) {
  const bool is_named = !a.piece.empty() && !b.piece.empty();
  return !is_named || (a.piece == b.piece && a.part == b.part);
}

bool is_same(const KeptStep& a, const KeptStep& b) {
  return is_of_same_part(a, b) && a.kind == b.kind && a.face == b.face && a.product == b.product &&
         a.coat == b.coat && a.grit == b.grit;
}

/// Takes the last step that is the same out of a list.
std::optional<KeptStep> take(const KeptStep& wanted, std::vector<KeptStep>& from) {
  const auto found = std::find_if(
      from.rbegin(), from.rend(), [&](const KeptStep& one) { return is_same(one, wanted); });
  if (found == from.rend()) {
    return std::nullopt;
  }
  KeptStep step = std::move(*found);
  from.erase(std::next(found).base());
  return step;
}

bool share_a_face(const KeptStep& a, const KeptStep& b) {
  return a.face == b.face || a.face == "both" || b.face == "both";
}

/// Whether a planned step is done with one of the log, which may leave out what a plan says.
bool is_done_by(const KeptStep& planned, const KeptStep& done) {
  if (planned.kind != done.kind || !is_of_same_part(planned, done) ||
      !share_a_face(planned, done)) {
    return false;
  }
  switch (planned.kind) {
    case StepKind::kApply:
      return planned.product == done.product && planned.coat == done.coat;
    case StepKind::kAbrade:
      return planned.coat == done.coat;
    case StepKind::kSand:
      return planned.grit == done.grit;
    default:
      return true;
  }
}

/// Takes out what was done meanwhile: every step that one of the log does, and a turning over for
/// each that was logged.
void take_done(const std::vector<KeptStep>& done, std::vector<KeptStep>& from) {
  for (const KeptStep& one : done) {
    if (one.kind == StepKind::kFlip) {
      const auto flip = std::find_if(from.begin(), from.end(), [&](const KeptStep& planned) {
        return planned.kind == StepKind::kFlip && is_of_same_part(planned, one);
      });
      if (flip != from.end()) {
        from.erase(flip);
      }
    } else {
      std::erase_if(from, [&](const KeptStep& planned) { return is_done_by(planned, one); });
    }
  }
}

PlanChange change_of(const KeptStep& step, std::optional<Time> was, std::optional<Time> is) {
  return {step.kind,
          step.product_title,
          step.coat,
          step.face,
          step.grit,
          was,
          is,
          step.piece,
          step.part};
}

/// Each product once.
void note_new_recipe(const KeptStep& was, const KeptStep& is, PlanChanges& changes) {
  const bool is_other = !was.revision.empty() && was.revision != is.revision;
  auto& titles = changes.new_recipes;
  if (is_other && std::find(titles.begin(), titles.end(), is.product_title) == titles.end()) {
    titles.push_back(is.product_title);
  }
}

/// A coat wetted in sections is one.
bool is_section(const KeptStep& step, const std::vector<KeptStep>& steps) {
  const auto last = std::find_if(steps.rbegin(), steps.rend(), [&](const KeptStep& one) {
    return is_of_same_part(one, step);
  });
  return step.kind == StepKind::kApply && last != steps.rend() && is_same(step, *last);
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
  PlanChanges changes{before.made_at, before.finish, {}, {}};
  std::vector<KeptStep> left = before.steps;
  // From the end, since of steps that are alike, such as turning over, the first are done.
  const std::vector<KeptStep> now = kept_plan_of(plan).steps;
  for (auto step = now.rbegin(); step != now.rend(); ++step) {
    const auto was = take(*step, left);
    if (was) {
      note_new_recipe(*was, *step, changes);
    }
    if (!was) {
      changes.steps.push_back(change_of(*step, std::nullopt, step->start));
    } else if (std::chrono::abs(was->start - step->start) >= kMoved) {
      changes.steps.push_back(change_of(*step, was->start, step->start));
    }
  }
  std::reverse(changes.steps.begin(), changes.steps.end());
  take_done(done_in(plan), left);
  for (const KeptStep& gone : left) {
    changes.steps.push_back(change_of(gone, gone.start, std::nullopt));
  }
  return changes;
}

}  // namespace coatwright
