#pragma once

#include <vector>

#include "plan/plan.h"
#include "plan/shop_search.h"

namespace coatwright {

/// Why the work of a plan does not begin sooner.
struct PlanReasons {
  std::vector<std::vector<CriticalLink>> by_job;  ///< From each piece's last step back.
  std::vector<Shortage> shortages;                ///< The longest first.
  std::vector<SharedWait> shared_waits;           ///< By step.
};

/// Looks back from each activity, grain by grain, at what keeps it from beginning then.
[[nodiscard]] PlanReasons reasons_of(const ShopContext& context, const FoundShop& found);

}  // namespace coatwright
