#pragma once

#include <string>

#include "plan/shop_project.h"
#include "scheduling/solver.h"

namespace coatwright {

/// Why work of a shop's plan finds no place, in a sentence with its figures: the air and the limit
/// that it breaks, people or hours that are never there, a place that is always taken.
/// @param none of a search over `model` that found no schedule.
[[nodiscard]] std::string why_no_place(const ShopContext& context,
                                       const ShopModel& model,
                                       const NoPlace& none);

}  // namespace coatwright
