#pragma once

#include "cli/common.h"

namespace coatwright {

/// `watch`: keeps what may be done now on the terminal, and rings when something opens or is about
/// to close.
void add_watch(CLI::App& app, const GlobalOptions& global, Work& chosen);

}  // namespace coatwright
