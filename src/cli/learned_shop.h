#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "cli/common.h"
#include "learn/shop_belief.h"
#include "recipe/paced_product.h"

namespace coatwright {

/// A coat whose touch tests do not count.
struct CoatLeftAside {
  std::int64_t coat = 0;  ///< Its entry.
  std::string why;        ///< In a sentence or two.
};

/// What the touch tests of a shop's coats teach, of retired pieces too.
struct LearnedShop {
  LearnedPaces paces;
  std::vector<CoatLeftAside> left_aside;
};

/// @param book its products as labelled. Errors: of the store and the recipes.
[[nodiscard]] Result<LearnedShop> learn_shop(const RecipeBook& book, const Session& session);

/// The recipes at this shop's own pace.
struct ShopRecipes {
  RecipeBook book;
  /// Whose tests it goes by, and which do not count; a sentence each.
  std::vector<std::string> remarks;
};

/// @param as_labelled whether what was learned is set aside. Errors: of open_recipes() and
/// learn_shop().
[[nodiscard]] Result<ShopRecipes> open_shop_recipes(const GlobalOptions& global,
                                                    const Session& session,
                                                    bool as_labelled);

}  // namespace coatwright
