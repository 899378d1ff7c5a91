#pragma once

#include <optional>
#include <vector>

#include "plan/shop_project.h"

namespace coatwright {

/// A session that cannot begin exactly when the search has it.
struct Misplaced {
  int activity = 0;
  Tick start = 0;
};

/// A shop's steps as they follow from the starts of a schedule.
struct WrittenShop {
  std::optional<Misplaced> misplaced;  ///< Where set, the rest is not there.
  std::vector<PlanStep> steps;         ///< By start, what is done first; ids in this order.
  std::vector<PlanWarning> warnings;
  std::vector<Chain> chains;              ///< By part.
  std::vector<std::optional<Time>> ends;  ///< By job; none: it comes to no end.
  std::vector<int> first_steps;           ///< By activity: the id of its first step; 0: none.
};

/// Places each part's work by the rules of one piece at the starts of a schedule, and writes down
/// what joins the parts. Errors: from the recipes.
[[nodiscard]] Result<WrittenShop> write_shop(const ShopContext& context,
                                             const ShopModel& model,
                                             const StartTimes& schedule);

}  // namespace coatwright
