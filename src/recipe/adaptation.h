#pragma once

#include "base/result.h"
#include "recipe/recipe_book.h"
#include "recipe/sanding_table.h"
#include "recipe/schedule.h"
#include "recipe/tables.h"

namespace coatwright {

/// Makes a finishing schedule concrete for a wood: every step applies, and every grit and wait is
/// there. What is put in, left out or chosen says why in the step's `note`, and where it comes from
/// in its `source`.
///
/// - Steps for other woods are left out.
/// - A wood that blotches gets a wash coat before an oil or water stain; an oily one is washed with
///   solvent just before the first coat, and gets a barrier coat of dewaxed shellac before what
///   cures by oxygen; the grain is raised before a first coat with water in it.
/// - Sanding without grits runs from the surface's first grit to the typical last grit under the
///   first product. A wash coat is so thin that the product after it decides. Where the maker named
///   the grits they stay, with coarser ones in front where the surface needs them.
/// - Abrading without a grit takes the grit of the product beneath; rubbing out without grits or
///   waits takes those of the sheen and of the last product.
///
/// @param start how the wood was left by what worked it last.
/// Errors: kOutOfRange, with what would work instead, where the wood does not bear the finish;
/// kNotFound where the schedule names an unknown product, or where a product's layer is not in the
/// sanding table and the schedule has no figure of its own; kInputFile from a recipe's file.
[[nodiscard]] Result<Schedule> adapted(const Schedule& schedule,
                                       const Species& species,
                                       const WoodSurface& start,
                                       const RecipeBook& book);

/// Whether a product is a wash coat, which is so thin that the wood counts as bare for stain,
/// filler and sanding.
[[nodiscard]] bool is_wash_coat(const Product& product);

/// The product which decides to what the wood is sanded: the first that is no wash coat, or the
/// wash coat where nothing else is put on. Errors: as adapted().
[[nodiscard]] Result<const Product*> product_to_sand_for(const Schedule& schedule,
                                                         const RecipeBook& book);

}  // namespace coatwright
