#pragma once

#include <string>
#include <vector>

#include "plan/shop_request.h"

namespace coatwright {

/// A stretch in which all there is of something is taken.
struct ShortStretch {
  std::string what;  ///< "the spray place", "all 2 people" ...
  Time start;
  Time end;
};

/// What a request says the shop has, for its plan.
[[nodiscard]] PlanShop plan_shop_of(const ShopRequest& request);

/// When people and places are all taken, by the steps of a plan that says what its shop has.
/// Stretches less than half an hour apart are one; those shorter than that are left out.
/// @return by time; none where the plan does not say.
[[nodiscard]] std::vector<ShortStretch> shortages_of(const Plan& plan);

}  // namespace coatwright
