#pragma once

#include <deque>
#include <string>
#include <vector>

#include "air/air_record.h"
#include "base/shop_times.h"
#include "cli/common.h"
#include "cli/piece_log.h"
#include "cli/plan_request.h"
#include "plan/shop_request.h"

namespace coatwright {

/// A whole shop's request with all that it points into.
struct PreparedShop {
  RecipeBook book;
  std::deque<PieceLog> logs;            ///< One per part.
  std::vector<std::string> left_aside;  ///< Log entries that planning does not take, and why.
  ShopRequest request;
  AirRecord air;
};

/// When who is there between two moments, closed and one-off days applied.
[[nodiscard]] std::vector<StaffedHours> staffed_hours(const ShopTimes& times,
                                                      Time from,
                                                      Time to,
                                                      const Zone& zone);

/// What the shop has, of which the shop did not say how much: not short of it.
[[nodiscard]] ShopResources resources_of(const ShopSettings& shop);

/// All stored pieces with their parts, work and logs, as the shop's plan takes them. A piece that
/// is not divided has the one part "all".
/// @param options its --from, --hours, --air, --in-air and --confidence; all pieces, or the one of
/// --piece. Errors: those of the options, the store, the recipes and the air file; kUsage where
/// there is no piece.
[[nodiscard]] Result<PreparedShop> prepare_shop(const PlanOptions& options,
                                                const GlobalOptions& global,
                                                const Session& session);

}  // namespace coatwright
