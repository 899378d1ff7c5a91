#pragma once

#include "base/result.h"
#include "recipe/recipe_book.h"

namespace coatwright {

/// Makes a schedule that is adapted to its wood one for a piece that carries a finish already: what
/// prepares bare wood is left out, and where the compatibility table asks for a barrier between the
/// finish and the first coat, a coat of it comes first. What the table forbids stays as it is, for
/// check_pairs() to name.
/// Errors: kNotFound for an unknown product or pair; kInputFile from a recipe's file.
[[nodiscard]] Result<Schedule> over_finish(const Schedule& schedule,
                                           const Product& finish,
                                           const RecipeBook& book);

/// A schedule made concrete for what it begins on: adapted to the wood, then to what lies there.
/// Errors: as adapted() and over_finish().
[[nodiscard]] Result<Schedule> schedule_on(const Schedule& schedule,
                                           const PieceSurface& surface,
                                           const RecipeBook& book);

/// What lies on a piece, made long dry: all of its stages and windows are over.
[[nodiscard]] Product long_dry(const Product& finish);

}  // namespace coatwright
