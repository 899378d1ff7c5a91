#pragma once

#include "scheduling/board.h"

namespace coatwright {

/// Moves each activity of a whole schedule to its earliest place beside all others, those that
/// start first first, until none moves. Nothing ends later than before.
/// @return the activities that were moved.
int shift_earlier(const LagNetwork& network, Board& board);

/// Moves each activity to its latest place before `end`, those that end last first; the schedule
/// may then be built anew in the order of these starts. Source: justification [valls2005].
/// @return as shift_earlier().
int shift_later(const Project& project, const LagNetwork& network, Board& board, Tick end);

}  // namespace coatwright
