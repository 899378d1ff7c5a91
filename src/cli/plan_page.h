#pragma once

#include <string>
#include <vector>

#include "cli/plan_request.h"
#include "plan/plan.h"

namespace coatwright {

/// Adds to a plan what the call and the store have to say of it: what its air rests on, the odds
/// where they were asked for, and what of the log was left aside.
void complete_plan(const PlanOptions& options,
                   const Session& session,
                   const AirRecord& air,
                   const std::vector<std::string>& left_aside,
                   Plan& plan);

/// Prints a plan, or writes it where the call says. @return whether it fits. Errors: as
/// write_output_file().
[[nodiscard]] Result<ExitCode> put_out_plan(const Plan& plan,
                                            const PlanOptions& options,
                                            const Session& session);

}  // namespace coatwright
