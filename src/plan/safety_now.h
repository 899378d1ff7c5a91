#pragma once

#include <vector>

#include "plan/room_now.h"

namespace coatwright {

/// Holds back what may be done, but for what is open itself, while something that is for safety
/// comes before it: rags that can ignite and are not seen to, whosesoever they are; something in
/// the room that could ignite the vapour of a flammable coat; residue in the booth that ignites
/// with what is to be sprayed. Each step held back says what comes first, and how that is overruled
/// with a reason that goes into the log. Wiping is not held back: it is due.
void hold_back_unsafe(RoomNow& room, std::vector<PieceNow>& pieces);

}  // namespace coatwright
