#pragma once

#include "plan/shop_project.h"

namespace coatwright {

/// Whether every plan is a schedule of this project: nothing may be turned over in another order,
/// recoated in another way, put on in other sections or batches, or sprayed in one session.
[[nodiscard]] bool has_no_choice(const ShopContext& context, const ShopModel& model);

}  // namespace coatwright
