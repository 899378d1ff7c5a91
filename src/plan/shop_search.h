#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "plan/shop_planner.h"
#include "plan/shop_project.h"
#include "plan/shop_writer.h"
#include "scheduling/solver.h"

namespace coatwright {

/// A plan of a shop as the search found it.
struct FoundShop {
  ShopChoice choice;
  ShopModel model;
  StartTimes schedule;
  ProjectCost cost;
  int interruptions = 0;  ///< Breaks in the work, and cleanings of a gun.
  WrittenShop written;
};

/// What came of a search.
struct ShopSearchResult {
  std::optional<FoundShop> found;
  std::string why_not;  ///< Where nothing, or not all, was found.
  std::int64_t nodes = 0;
  StoppedBy stopped_by = StoppedBy::kBudget;  ///< Proof: for the choice of the plan found.
  std::optional<Tick> end_bound;  ///< No plan ends earlier; none: choices were left open.
};

/// Chooses ways to recoat, orders of turning over and shared sessions, and searches for the starts,
/// until what is found keeps every rule to the second. A piece that finds no place is left out.
/// @param before the plan whose starts are kept where they can be; null: none.
/// Errors: from the recipes.
[[nodiscard]] Result<ShopSearchResult> search_shop(const ShopContext& context,
                                                   const SearchWatch& watch,
                                                   const Plan* before);

}  // namespace coatwright
