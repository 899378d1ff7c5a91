#pragma once

#include <vector>

#include "plan/room_now.h"

namespace coatwright {

/// Adds to what may be done of the pieces what is no finishing: work that nothing of its piece
/// comes before any more, and clamps that are still on; and keeps the finishing of parts waiting
/// that are in clamps, are to be glued up first, or have a wet glue line.
/// @param room with the standing of each piece asked about. @param all by piece as asked; a piece
/// of several parts gets an entry of its own before them.
void add_building(RoomNow& room, std::vector<PieceNow>& all);

}  // namespace coatwright
