#pragma once

#include "cli/common.h"

namespace coatwright {

/// Adds `schedule check` to its group.
void add_schedule_check(CLI::App& group, const GlobalOptions& global, Work& chosen);

}  // namespace coatwright
