#pragma once

#include "plan/shop_project.h"

namespace coatwright {

/// How many sessions end with the cleaning of a gun.
[[nodiscard]] int gun_cleanings(const ShopModel& model);

/// How often work breaks off: nobody is at work, although the shop is open, until the next session.
[[nodiscard]] int breaks_in_work(const ShopModel& model, const StartTimes& schedule);

}  // namespace coatwright
