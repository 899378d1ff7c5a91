#pragma once

#include <vector>

#include "plan/shop_links.h"

/// Dust of sanding in a room where films are wet.
namespace coatwright {

inline constexpr Tick kSettlingTicks = static_cast<Tick>(SessionPlanner::kSettling.count());

/// The abrading that begins a coat's session; null where there is none.
[[nodiscard]] const SessionPart* abrading_of(const BenchSession& session);

/// Writes into the project that nothing is sanded while a film is short of dust-free, by the plan
/// or by the log, and that no film is laid before dust has settled.
void keep_dust_off_films(const ShopContext& context,
                         ShopModel& model,
                         std::vector<StartBounds>& bounds);

}  // namespace coatwright
