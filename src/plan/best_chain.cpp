#include "plan/best_chain.h"

#include <algorithm>

namespace coatwright {

namespace {

/// One chain for each order of turning over.
Result<std::vector<PartChain>> chains_of(const PlanRequest& request,
                                         Strictness strictness,
                                         const RecipeBook& book,
                                         DryingClocks& clocks,
                                         std::int64_t& placements,
                                         const Prescription* prescription = nullptr) {
  const auto scheduled = scheduled_works(*request.piece.schedule, book);
  if (!scheduled) {
    return pass_on(scheduled.error());
  }
  Progress progress = progress_of(request.piece, *scheduled, request.from);
  hold_back_early_coats(
      progress, book, clocks, {normal_deviate(request.confidence), request.horizon});
  std::vector<PartChain> chains;
  for (const FaceOrder order : orders_of(request.piece.faces)) {
    auto works = work_sequence(request.piece, order, *scheduled, progress);
    auto chain = place_chain(request, progress, works, strictness, book, clocks, prescription);
    if (!chain) {
      return pass_on(chain.error());
    }
    placements += chain->placements;
    chains.push_back({std::move(works), std::move(*chain)});
  }
  return chains;
}

}  // namespace

PartChain& best_of(std::vector<PartChain>& chains) {
  return *std::min_element(
      chains.begin(), chains.end(), [](const PartChain& a, const PartChain& b) {
        return ends_earlier(a.alone, b.alone);
      });
}

Result<Chain> best_chain(const PlanRequest& request,
                         Strictness strictness,
                         const RecipeBook& book,
                         DryingClocks& clocks,
                         std::int64_t& placements) {
  auto chains = chains_of(request, strictness, book, clocks, placements);
  if (!chains) {
    return pass_on(chains.error());
  }
  return std::move(best_of(*chains).alone);
}

Result<std::vector<PartChain>> bounding_chains(const PlanRequest& request,
                                               const RecipeBook& book,
                                               DryingClocks& clocks,
                                               std::int64_t& placements,
                                               const Prescription* prescription) {
  return chains_of(request, Strictness::kBound, book, clocks, placements, prescription);
}

Result<std::optional<Time>> bound_of(const PlanRequest& request,
                                     const RecipeBook& book,
                                     DryingClocks& clocks,
                                     std::int64_t& placements) {
  const auto chain = best_chain(request, Strictness::kBound, book, clocks, placements);
  if (!chain) {
    return pass_on(chain.error());
  }
  return chain->finish;
}

}  // namespace coatwright
