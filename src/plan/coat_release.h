#pragma once

#include <vector>

#include "drying/drying_clock.h"
#include "plan/piece_state.h"
#include "safety/room_air.h"

namespace coatwright {

/// Of a film's solvent so much has left it when it no longer catches dust; the rest has to come up
/// through the film. Source: judgement; that lacquers which feel dry still hold some is common
/// practice.
inline constexpr double kOutWhenSet = 0.8;

/// When the vapour of a coat leaves it, by the drying clock: what misses the wood while it is put
/// on, four fifths of the rest evenly until the film is set, and what is left then ever slower
/// until it no longer takes prints. Source: judgement for the shares and the stages; the stages are
/// the product's own.
/// @param applied from its first stroke to its last, with wiping.
/// @param on_the_wood 0 .. 1 of what is used; the rest is mist, and evaporates as it is made.
/// @param deviate where in the stages' ranges this coat lies: low, it sets free quickly, and there
/// is most at a time; high, it lasts longest.
[[nodiscard]] std::vector<ReleasePoint> release_of(const LaidCoat& coat,
                                                   Interval applied,
                                                   double on_the_wood,
                                                   DryingClocks& clocks,
                                                   double deviate);

}  // namespace coatwright
