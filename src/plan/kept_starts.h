#pragma once

#include <optional>
#include <vector>

#include "plan/plan.h"
#include "plan/shop_project.h"

namespace coatwright {

/// When each activity began in the plan before; nothing for what that plan does not have.
[[nodiscard]] std::vector<std::optional<Tick>> kept_starts(const ShopContext& context,
                                                           const ShopModel& model,
                                                           const Plan& before);

/// Takes starts before the kept ones out of a project, for each activity that has a later one left;
/// and the later ones too, where it may begin then and its job stays.
/// @param stays by job.
void hold_to(const std::vector<std::optional<Tick>>& kept,
             const std::vector<bool>& stays,
             Project& project);

/// The starts of one model for the activities of another that plans the same work otherwise; 0
/// where it has no such activity.
[[nodiscard]] StartTimes carried_over(const ShopModel& from,
                                      const StartTimes& starts,
                                      const ShopModel& to);

}  // namespace coatwright
