#pragma once

#include <vector>

#include "plan/planner.h"
#include "quantity/dry_film.h"
#include "quantity/quantity.h"

/// From a piece and its schedule to what the room of quantities reckons with.
namespace coatwright {

/// What puts the coats on.
struct ToolChoice {
  std::vector<const Tool*> tools;  ///< The last of a method holds; none: the usual one.
  bool small_parts = false;
};

/// The coats that a piece still needs, each with the sessions that put it on: both faces at once on
/// points, else face by face. The work is taken at the slow end of the working times.
/// Errors: from the recipes.
[[nodiscard]] Result<std::vector<CoatUse>> coats_to_come(const PieceRequest& piece,
                                                         Time now,
                                                         const RecipeBook& book,
                                                         const ToolChoice& choice);

/// The air of a span in which pot lives are shortest: the warmest.
/// @param to not before `from`.
[[nodiscard]] BatchAir warmest_air(const AirRecord& air, Time from, Time to);

/// All coats of a schedule on one face, lowest first. Errors: from the recipes.
[[nodiscard]] Result<std::vector<FilmCoats>> film_coats_of(const Schedule& schedule,
                                                           const RecipeBook& book);

}  // namespace coatwright
