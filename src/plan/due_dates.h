#pragma once

#include "plan/shop_request.h"

namespace coatwright {

/// @return the last date that a piece is asked for by; the shop's start where none is.
[[nodiscard]] Time last_due_of(const ShopRequest& shop);

}  // namespace coatwright
