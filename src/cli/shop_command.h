#pragma once

#include "cli/common.h"

namespace coatwright {

/// `shop set`, `shop show`: air, hours, people, places and days.
void add_shop(CLI::App& app, const GlobalOptions& global, Work& chosen);

}  // namespace coatwright
