#pragma once

#include "cli/common.h"

namespace coatwright {

/// `piece add`, `piece list`, `piece show`, `piece remove`, `piece ticket`: what is to be finished.
void add_piece(CLI::App& app, const GlobalOptions& global, Work& chosen);

}  // namespace coatwright
