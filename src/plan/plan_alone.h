#pragma once

#include "plan/shop_request.h"

namespace coatwright {

/// A shop's request that is about one part of one piece, as the request for that alone, with the
/// hours in which anybody is there. @param shop has one job of one part.
[[nodiscard]] PlanRequest request_alone(const ShopRequest& shop);

/// The other way round: the piece as all that a shop has to do, with one person there.
[[nodiscard]] ShopRequest shop_request_of(const PlanRequest& request);

}  // namespace coatwright
