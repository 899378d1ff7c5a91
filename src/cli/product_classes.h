#pragma once

#include "cli/common.h"

namespace coatwright {

/// `product table`: every class with its windows, and how each figure is known.
void add_product_classes(CLI::App& group, const GlobalOptions& global, Work& chosen);

}  // namespace coatwright
