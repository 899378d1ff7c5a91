#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "plan/chain.h"

namespace coatwright {

/// The best chain over the face orders. @param placements grows by the places tried.
/// Errors: from the recipes.
[[nodiscard]] Result<Chain> best_chain(const PlanRequest& request,
                                       Strictness strictness,
                                       const RecipeBook& book,
                                       DryingClocks& clocks,
                                       std::int64_t& placements);

/// The one that ends earliest. @param chains at least one.
[[nodiscard]] PartChain& best_of(std::vector<PartChain>& chains);

/// One chain for each order of turning over, such that no chain of a plan in that order has any
/// session, or ends, earlier: windows never close, nothing is abraded but by the schedule, and
/// starts may lie on any second. @param prescription before which sessions do not begin; null:
/// none. Errors: from the recipes.
[[nodiscard]] Result<std::vector<PartChain>> bounding_chains(
    const PlanRequest& request,
    const RecipeBook& book,
    DryingClocks& clocks,
    std::int64_t& placements,
    const Prescription* prescription = nullptr);

/// A moment that no plan ends before that turns the piece over in one of the orders of orders_of().
/// Nothing when no bounding chain finds an end. Errors: from the recipes.
[[nodiscard]] Result<std::optional<Time>> bound_of(const PlanRequest& request,
                                                   const RecipeBook& book,
                                                   DryingClocks& clocks,
                                                   std::int64_t& placements);

}  // namespace coatwright
