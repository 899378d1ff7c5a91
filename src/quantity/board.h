#pragma once

#include <vector>

#include "base/units.h"
#include "recipe/part_list.h"

namespace coatwright {

/// What is coated of a board: its faces, and the four edges around it,
///     n l w + 2 (l + w) t.
/// @param faces 1 or 2. @param edges whether the edges are coated. Source: [definition].
[[nodiscard]] Area board_area(const Dimensions& size, int faces, bool edges);

/// All parts together.
[[nodiscard]] Area area_of(const std::vector<Part>& parts);

}  // namespace coatwright
