#pragma once

#include <vector>

#include "plan/booth.h"
#include "plan/plan.h"
#include "plan/shop_request.h"

namespace coatwright {

/// A sprayed coat of a plan.
struct SprayedCoat {
  int step = 0;  ///< Id of the step that begins it.
  Interval applied;
  BoothResidue leaves = BoothResidue::kNone;
};

/// Adds the cleaning of the booth before each coat that could ignite with what was sprayed before
/// it, at the latest moment at which somebody is free for it. Where nobody is, the plan does not
/// fit, and says so. @param logged by the logs of all pieces, in order of time. @param coats in
/// order of time. @param staffed when how many are there. @param cleaning how long it takes.
void add_booth_cleaning(std::vector<BoothUse> logged,
                        const std::vector<SprayedCoat>& coats,
                        const std::vector<StaffedHours>& staffed,
                        const WorkingTime& cleaning,
                        Plan& plan);

}  // namespace coatwright
