#pragma once

#include "cli/plan_request.h"

namespace coatwright {

/// Declares the options that say what is to be planned, in which hours and in which air.
void add_planning_options(CLI::App& command, PlanOptions& options);

}  // namespace coatwright
