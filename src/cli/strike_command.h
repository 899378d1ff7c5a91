#pragma once

#include "cli/common.h"

namespace coatwright {

/// `strike`: strikes out an entry of the log.
void add_strike(CLI::App& app, const GlobalOptions& global, Work& chosen);

}  // namespace coatwright
