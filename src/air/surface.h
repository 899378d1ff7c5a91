#pragma once

#include "air/air_record.h"

namespace coatwright {

/// How fast a board follows the air: the lumped heat capacity of half its thickness over the heat
/// transfer at its face, for 20 mm of a medium wood. Source: lumped-capacity model, derived; the
/// figures (600 kg/m3, 1600 J/(kg K), 8 W/(m2 K)) are judgement.
inline constexpr std::chrono::seconds kBoardLag{600 * 1600 / 100 / 8};

/// Surface temperature of a board that has stood in the shop for hours: it lags the air.
/// Valid: for a lag well below six lags; older air has decayed to under 1 % of its difference.
[[nodiscard]] Temperature surface_temperature(const AirRecord& air, Time at,
                                              std::chrono::seconds lag = kBoardLag);

}  // namespace coatwright
