#pragma once

#include "cli/common.h"

namespace coatwright {

/// `coat`: logs a coat as applied, and says how it stands to its window.
void add_coat(CLI::App& app, const GlobalOptions& global, Work& chosen);

}  // namespace coatwright
