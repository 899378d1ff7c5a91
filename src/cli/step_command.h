#pragma once

#include "cli/common.h"

namespace coatwright {

/// `done`: logs steps that were done, other than coats.
void add_done(CLI::App& app, const GlobalOptions& global, Work& chosen);
/// `skip`: logs steps that were left out, with why.
void add_skip(CLI::App& app, const GlobalOptions& global, Work& chosen);

}  // namespace coatwright
