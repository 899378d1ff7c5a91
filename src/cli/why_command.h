#pragma once

#include "cli/common.h"

namespace coatwright {

/// `why`: where a defect of a piece may come from.
void add_why(CLI::App& app, const GlobalOptions& global, Work& chosen);

}  // namespace coatwright
