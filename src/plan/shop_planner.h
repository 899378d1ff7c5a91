#pragma once

#include <functional>

#include "base/result.h"
#include "plan/plan.h"
#include "plan/shop_request.h"

namespace coatwright {

/// How far a long search has come.
struct PlanProgress {
  std::int64_t nodes = 0;
  std::optional<Time> finish;  ///< Of the best plan so far.
  std::optional<Time> bound;
};

/// What a long search tells and asks meanwhile.
struct SearchWatch {
  std::function<bool()> stop;                         ///< True ends it with the best so far.
  std::function<void(const PlanProgress&)> progress;  ///< Called a few times a second at most.
};

/// Plans all pieces of a shop together: no broken window, then no lateness by weight, then the
/// earliest end. Pure but for `watch`: the same request and air give the same plan.
/// @param before the plan that is kept where it can be; null: none.
/// Errors: kInputFile or kNotFound from the recipes, kOutOfRange for a schedule that the
/// compatibility table forbids. A plan that does not fit is a Plan, not an error.
[[nodiscard]] Result<Plan> make_shop_plan(const ShopRequest& request,
                                          const RecipeBook& book,
                                          const AirRecord& air,
                                          const SearchWatch& watch = {},
                                          const Plan* before = nullptr);

/// When the pieces end, and no more of a plan: as much effort as decides whether the dates are met.
/// Errors: as make_shop_plan().
[[nodiscard]] Result<Plan> sketch_shop_plan(const ShopRequest& request,
                                            const RecipeBook& book,
                                            const AirRecord& air,
                                            const SearchWatch& watch = {});

/// @return false where bounds show that no plan meets all dates; true: it is open.
[[nodiscard]] bool may_meet_dates(const ShopRequest& request,
                                  const RecipeBook& book,
                                  const AirRecord& air);

}  // namespace coatwright
