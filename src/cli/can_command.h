#pragma once

#include "cli/common.h"

namespace coatwright {

/// `product open`, `product cans`, `product empty`: the cans that the shop has open.
void add_cans(CLI::App& group, const GlobalOptions& global, Work& chosen);

}  // namespace coatwright
