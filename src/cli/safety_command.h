#pragma once

#include "cli/common.h"

namespace coatwright {

/// `safety`: the safety sheet for the products of a piece or schedule, or for those named.
void add_safety(CLI::App& app, const GlobalOptions& global, Work& chosen);

}  // namespace coatwright
