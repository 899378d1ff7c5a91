#pragma once

#include "cli/common.h"

namespace coatwright {

/// `product list`, `product show`, `product check`: the finish materials.
void add_product(CLI::App& app, const GlobalOptions& global, Work& chosen);

}  // namespace coatwright
