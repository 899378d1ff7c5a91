#pragma once

#include <vector>

#include "plan/shop_project.h"

namespace coatwright {

/// Between which starts an activity may begin by what was done before the plan.
struct StartBounds {
  Tick first = 0;
  Tick last = kNeverTick;
  bool is_fixed = false;  ///< It begins at `first`, whoever is there.
};

/// The parts of the shop, by their places, that a build work of a job joins or hands over.
[[nodiscard]] std::vector<std::size_t> parts_joined_by(const ShopRequest& request,
                                                       std::size_t job,
                                                       std::size_t build);

/// Writes into the project what its activities wait for: the order of the work, drying, windows
/// that close, dust, racks, and what joins the parts. @return bounds by activity.
/// Errors: from the recipes.
[[nodiscard]] Result<std::vector<StartBounds>> link_shop(const ShopContext& context,
                                                         ShopModel& model);

}  // namespace coatwright
