#pragma once

#include <utility>
#include <vector>

#include "plan/shop_search.h"

namespace coatwright {

/// Pairs of coats of one product by spray on two parts, nearest in time first.
[[nodiscard]] std::vector<std::pair<SessionKey, SessionKey>> near_pairs(const FoundShop& found);

/// Joins two coats and those that share with them. @return false: a part would be in it twice.
[[nodiscard]] bool join(const SessionKey& one,
                        const SessionKey& other,
                        std::vector<GunSession>& guns);

}  // namespace coatwright
