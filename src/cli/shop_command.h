#pragma once

#include "cli/common.h"

namespace coatwright {

/// `shop set`, `shop show`: the usual day, the hours, the time zone and the units.
void add_shop(CLI::App& app, const GlobalOptions& global, Work& chosen);

}  // namespace coatwright
