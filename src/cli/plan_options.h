#pragma once

#include "cli/plan_request.h"

namespace coatwright {

/// Declares the options that say what is to be planned, in which hours and in which air.
void add_planning_options(CLI::App& command, PlanOptions& options);

/// Declares the options that say how long and how to search.
void add_search_options(CLI::App& command, PlanOptions& options);

}  // namespace coatwright
