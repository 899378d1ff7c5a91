#include "plan/best_chain.h"

#include <algorithm>

namespace coatwright {
namespace {

/// One face of a piece alone, as if it were all of it.
PlanRequest face_alone(const PlanRequest& request, int face) {
  PlanRequest alone = request;
  alone.piece.faces = Faces::kOne;
  alone.piece.log.clear();
  for (LoggedWork entry : request.piece.log) {
    const bool is_on_face =
        std::find(entry.faces.begin(), entry.faces.end(), face) != entry.faces.end();
    // Rags are seen to whichever face they are of.
    if (is_on_face || entry.kind == StepKind::kRags) {
      entry.faces = {0};
      alone.piece.log.push_back(std::move(entry));
    }
  }
  return alone;
}

}  // namespace

Result<Chain> best_chain(const PlanRequest& request,
                         Strictness strictness,
                         const RecipeBook& book,
                         DryingClocks& clocks,
                         std::int64_t& placements) {
  std::optional<Chain> best;
  const auto scheduled = scheduled_works(*request.piece.schedule, book);
  if (!scheduled) {
    return pass_on(scheduled.error());
  }
  Progress progress = progress_of(request.piece, *scheduled, request.from);
  hold_back_early_coats(
      progress, book, clocks, {normal_deviate(request.confidence), request.horizon});
  for (const FaceOrder order : orders_of(request.piece.faces)) {
    const auto works = work_sequence(request.piece, order, *scheduled, progress);
    auto chain = place_chain(request, progress, works, strictness, book, clocks);
    if (!chain) {
      return pass_on(chain.error());
    }
    placements += chain->placements;
    if (!best || ends_earlier(*chain, *best)) {
      best = std::move(*chain);
    }
  }
  return std::move(*best);
}

Result<std::optional<Time>> bound_of(const PlanRequest& request,
                                     const RecipeBook& book,
                                     DryingClocks& clocks,
                                     std::int64_t& placements) {
  std::vector<PlanRequest> relaxed = {request};
  if (request.piece.faces == Faces::kTwo) {
    relaxed = {face_alone(request, 0), face_alone(request, 1)};
  }
  std::optional<Time> latest;
  for (const PlanRequest& one : relaxed) {
    const auto chain = best_chain(one, Strictness::kBound, book, clocks, placements);
    if (!chain) {
      return pass_on(chain.error());
    }
    if (!chain->finish) {
      return std::nullopt;
    }
    latest = std::max(latest.value_or(*chain->finish), *chain->finish);
  }
  return latest;
}

}  // namespace coatwright
