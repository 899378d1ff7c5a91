#pragma once

#include <cstdint>
#include <optional>

#include "plan/chain.h"

namespace coatwright {

/// The best chain over the face orders. @param placements grows by the places tried.
/// Errors: from the recipes.
[[nodiscard]] Result<Chain> best_chain(const PlanRequest& request,
                                       Strictness strictness,
                                       const RecipeBook& book,
                                       DryingClocks& clocks,
                                       std::int64_t& placements);

/// A moment that no plan ends before: whatever the order of turning over, each face alone takes its
/// time. Nothing when the relaxed chain finds no end. Errors: from the recipes.
[[nodiscard]] Result<std::optional<Time>> bound_of(const PlanRequest& request,
                                                   const RecipeBook& book,
                                                   DryingClocks& clocks,
                                                   std::int64_t& placements);

}  // namespace coatwright
