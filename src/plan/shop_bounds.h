#pragma once

#include <functional>

#include "plan/shop_search.h"
#include "scheduling/project_bounds.h"

/// What no plan of a shop can beat.
namespace coatwright {

/// @param found a plan with all its pieces. @param effort about how many starts may be looked at.
/// @param stop true ends the search for better bounds. @param placements grows by the places tried.
/// @return the end and the lateness, as in the project of the plan. Errors: from the recipes.
[[nodiscard]] Result<ProjectBounds> bounds_of_plans(const ShopContext& context,
                                                    const FoundShop& found,
                                                    std::int64_t effort,
                                                    const std::function<bool()>& stop,
                                                    std::int64_t& placements);

/// @return false where no plan meets all dates; true: it is open. Errors: from the recipes.
[[nodiscard]] Result<bool> may_meet_dates(const ShopContext& context);

}  // namespace coatwright
