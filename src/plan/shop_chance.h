#pragma once

#include <functional>

#include "plan/shop_search.h"

namespace coatwright {

/// The chance that every piece ends by its date: the highest confidence at which every wait can be
/// taken and a plan with these ways to recoat and shared sessions still ends in time, to 1/32. All
/// coats are slow together there, and the search for each is short, so it is a cautious figure.
/// Source: derived; the sum of comonotone log-normal waits.
/// @param fits whether the plan that was found does at its confidence.
/// @param stop true ends it with the best known so far.
[[nodiscard]] double chance_by_dates(const ShopRequest& request,
                                     const FoundShop& found,
                                     bool fits,
                                     const RecipeBook& book,
                                     const AirRecord& air,
                                     const std::function<bool()>& stop);

}  // namespace coatwright
