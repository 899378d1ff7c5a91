#pragma once

#include "cli/common.h"

namespace coatwright {

/// `handover`: the care and cure card for the person who receives a piece.
void add_handover(CLI::App& app, const GlobalOptions& global, Work& chosen);

}  // namespace coatwright
