#pragma once

#include "cli/common.h"

namespace coatwright {

/// Declares `quantities`: what to buy, mix and in which portions.
void add_quantities(CLI::App& app, const GlobalOptions& global, Work& chosen);

}  // namespace coatwright
