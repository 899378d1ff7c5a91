#pragma once

#include <optional>

#include "plan/plan_changes.h"
#include "plan/shop_request.h"
#include "store/store.h"

namespace coatwright {

/// The last plans kept of the pieces of a request, as one. @return none where none of them has one.
/// Errors: of the store.
[[nodiscard]] Result<std::optional<KeptPlan>> kept_plan_of_shop(const ShopRequest& request,
                                                                const Store& store);

/// A plan of the steps that were kept, as planning takes what it is to hold to.
[[nodiscard]] Plan plan_as_kept(const KeptPlan& kept);

/// Keeps of each piece its own steps. Errors: of the store.
[[nodiscard]] Result<void> keep_shop_plan(const Plan& plan, Store& store);

}  // namespace coatwright
