#pragma once

#include "cli/common.h"

namespace coatwright {

/// `schedule list`, `schedule show`, `schedule check`: the finishing schedules.
void add_schedule(CLI::App& app, const GlobalOptions& global, Work& chosen);

}  // namespace coatwright
