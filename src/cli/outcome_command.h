#pragma once

#include "cli/common.h"

namespace coatwright {

/// `outcome`: logs how a coat or the finish came out.
void add_outcome(CLI::App& app, const GlobalOptions& global, Work& chosen);

}  // namespace coatwright
