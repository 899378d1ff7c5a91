#pragma once

#include <vector>

#include "recipe/label_recoat.h"
#include "recipe/product.h"
#include "recipe/timing_reader.h"

/// What the compatibility table says of a class, for a product that a shop made from it.
namespace coatwright {

/// Fits the table's intervals to a product under whose recoat stage is not that of its class: the
/// openings are longer or shorter by as much, and where that leaves nothing for the last phase of
/// its recoat stage the stage itself is used; a closing is no later than the product's own from its
/// label. A stretch in which nothing may go on becomes no shorter. A window that would close before
/// it opens is left out, unless it is the only interval. Source: judgement, no source.
[[nodiscard]] std::vector<IntervalHours> fitted_intervals(
    const std::vector<IntervalHours>& of_class, const Product& under, const RecoatChange& change);

}  // namespace coatwright
