#pragma once

#include <optional>

#include "air/air_record.h"
#include "air/slab.h"

namespace coatwright {

/// How fast a board follows the air where nothing more is known of it: kBoard's lag, 20 min. Its
/// Biot number is 0.53, so that the inside holds the face back too and the slowest part of its lag
/// is 24 min; the piece's thickness is known no better.
inline constexpr std::chrono::seconds kBoardLag = kBoard.lag();

/// Surface temperature of a board that has stood in the shop for hours: it lags the air.
/// Valid: for a lag well below six lags; older air has decayed to under 1 % of its difference.
[[nodiscard]] Temperature surface_temperature(const AirRecord& air,
                                              Time at,
                                              std::chrono::seconds lag = kBoardLag);

/// A piece that came into the shop at another temperature than the shop's.
struct CarriedPiece {
  Temperature temperature;  ///< Throughout, when it came in.
  Time since;               ///< When it came in.
  std::chrono::seconds lag = kBoard.slowest_lag();
};

/// Surface temperature of such a piece. @param at at or after `piece.since`.
/// Source: dTs/dt = (Ta - Ts)/lag, solved exactly where the air runs linearly.
[[nodiscard]] Temperature surface_temperature(const AirRecord& air,
                                              const CarriedPiece& piece,
                                              Time at);

/// The first moment from which the piece's surface stays this far above the dew point of the air,
/// up to `until`. It is a reckoning and no leave: say "not before".
/// @param spread usually 3 K, as painting guides have it ([coating_conditions_guides], for steel).
/// @return the moment, to the minute above, or nothing where there is none up to `until`.
/// With Slab::slowest_lag() a piece that came in colder than the air, which does not cool
/// meanwhile, is never reckoned to be warmer than conduction in the slab makes it.
[[nodiscard]] std::optional<Time> first_moment_above_dew_point(const AirRecord& air,
                                                               const CarriedPiece& piece,
                                                               TemperatureDifference spread,
                                                               Time until);

}  // namespace coatwright
