#pragma once

#include <optional>
#include <vector>

#include "plan/plan.h"
#include "plan/shop_project.h"

namespace coatwright {

/// The order of turning over in which the plan before has the coats of a part. @return none where
/// it has none of them, or in no order that is tried.
[[nodiscard]] std::optional<FaceOrder> kept_order(const ShopPart& part,
                                                  const RecipeBook& book,
                                                  DryingClocks& clocks,
                                                  const Plan& before);

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

/// Takes a start out of an activity's set.
void take_out(Tick start, int activity, Project& project);

/// Takes out the starts with which an activity would end after a moment.
void end_by(Tick latest, int activity, Project& project);

/// The starts of one model for the activities of another that plans the same work otherwise; 0
/// where it has no such activity.
[[nodiscard]] StartTimes carried_over(const ShopModel& from,
                                      const StartTimes& starts,
                                      const ShopModel& to);

}  // namespace coatwright
