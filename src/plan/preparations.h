#pragma once

#include "plan/plan.h"
#include "recipe/recipe_book.h"

namespace coatwright {

/// What must be begun a good while before the first coat of each product that a plan still puts on,
/// with the latest moment at which it can be begun while somebody is there; earliest first.
/// Errors: from the recipes.
[[nodiscard]] Result<std::vector<PlanPreparation>> preparations_of(const Plan& plan,
                                                                   const RecipeBook& book);

}  // namespace coatwright
