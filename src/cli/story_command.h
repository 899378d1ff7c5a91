#pragma once

#include "cli/common.h"

namespace coatwright {

/// `story`: what was done to a piece, in order.
void add_story(CLI::App& app, const GlobalOptions& global, Work& chosen);

}  // namespace coatwright
