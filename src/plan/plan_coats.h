#pragma once

#include <string>
#include <vector>

#include "plan/piece_state.h"
#include "plan/plan.h"
#include "plan/planner.h"
#include "safety/coat_vapour.h"

namespace coatwright {

/// A part whose coats dry in the room.
struct RoomPart {
  std::string piece;
  std::string part;
  const PieceRequest* request = nullptr;
};

/// One coat of the plan with what it is made of.
struct CoatOfPlan {
  int step = 0;  ///< Id of the kApply that begins it.
  bool done = false;
  std::string piece;
  std::string part;
  std::string face;
  int number = 0;
  Interval applied;
  LaidCoat laid;
  CoatVapour vapour;
  Method method = Method::kBrush;
  double on_the_wood = 1.0;
};

/// The coats of a plan that its schedules have, done ones too, in order of time. Errors: from the
/// recipes.
[[nodiscard]] Result<std::vector<CoatOfPlan>> coats_of_plan(const Plan& plan,
                                                            const std::vector<RoomPart>& parts,
                                                            const RecipeBook& book);

}  // namespace coatwright
