#pragma once

#include <deque>
#include <vector>

#include "cli/finished_parts.h"
#include "plan/shop_request.h"

namespace coatwright {

/// The work on a piece that is no finishing, as planning takes it, less what needs no more: what
/// was left out by the log, and what comes before the finishing of parts that carry a coat. Of work
/// that is alike on the same parts the first that was logged is the first in the piece's order.
/// @param parts of the piece, with their logs. Errors: kStore for a kind that this version does not
/// know, kNotFound for a glue.
[[nodiscard]] Result<std::vector<BuildWork>> building_work_of(const StoredPiece& piece,
                                                              const std::deque<FinishedPart>& parts,
                                                              const RecipeBook& book);

}  // namespace coatwright
