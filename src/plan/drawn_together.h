#pragma once

#include <optional>

#include "plan/shop_search.h"

namespace coatwright {

/// Looks for a plan of the same choice with fewer breaks in the work, or as many and a smaller sum
/// of ends, that is no later, ends no later and can be written; see fewer_breaks(). Its effort goes
/// with that of the request, beside the nodes of the search.
/// @return none where it finds no better one. Errors: from the recipes.
[[nodiscard]] Result<std::optional<FoundShop>> draw_together(const ShopContext& context,
                                                             const FoundShop& found,
                                                             const SearchWatch& watch);

}  // namespace coatwright
