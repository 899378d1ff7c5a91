#pragma once

#include <string>
#include <vector>

#include "drying/drying_clock.h"
#include "plan/plan.h"
#include "plan/plan_coats.h"
#include "plan/planner.h"

namespace coatwright {

/// Adds to a plan what its coats do to the air of the finishing room: the hazards of each coat, its
/// vapour, how far the mixed air comes, when the fan may be off and the air be breathed again, and
/// warnings where the room cannot carry the plan, with what would. For the highest that the air
/// comes to coats set free quickly, for how long the fan runs slowly, each at the confidence.
/// The booth is cleaned between sprayed coats that ignite together, as add_booth_cleaning() says.
/// @param staffed when how many are there. Errors: from the recipes.
[[nodiscard]] Result<void> add_room(const FinishingRoom& room,
                                    const std::vector<RoomPart>& parts,
                                    const std::vector<StaffedHours>& staffed,
                                    const RecipeBook& book,
                                    DryingClocks& clocks,
                                    Plan& plan);

/// A plan that is not made, and why.
void refuse_plan(const std::string& why, Plan& plan);

/// Why no flammable coat of these parts may be put on in a room, in a sentence; empty: nothing that
/// could ignite vapour is named, or no flammable coat is left. Errors: from the recipes.
[[nodiscard]] Result<std::string> ignition_forbids(const FinishingRoom& room,
                                                   const std::vector<RoomPart>& parts,
                                                   const RecipeBook& book);

}  // namespace coatwright
