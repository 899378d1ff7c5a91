#pragma once

#include "cli/common.h"

namespace coatwright {

/// `product ...`: the finish materials, and the shop's cans of them.
void add_product(CLI::App& app, const GlobalOptions& global, Work& chosen);

}  // namespace coatwright
