#pragma once

#include <string>
#include <vector>

#include "plan/plan.h"

namespace coatwright {

/// Says what keeps a shop's plan from its dates: why work finds no place, then, for each piece that
/// is late, by lateness times weight, what the chain to its end was spent on, the longest first. Of
/// a plan that fits, the same of the piece that ends last.
/// @param reasons why pieces come no further; the same one may stand there for each part.
/// @param plan with its pieces, their ends and critical links.
void add_shop_hold_ups(const std::vector<std::string>& reasons, Plan& plan);

}  // namespace coatwright
