#pragma once

#include "cli/common.h"

namespace coatwright {

/// `air add`, `air import`, `air show`: the temperature and humidity of the shop over time.
void add_air(CLI::App& app, const GlobalOptions& global, Work& chosen);

}  // namespace coatwright
