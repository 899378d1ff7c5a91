#pragma once

#include "cli/common.h"

namespace coatwright {

/// `product from-label`: a product of the shop's own from the label in the maker's hand.
void add_from_label(CLI::App& group, const GlobalOptions& global, Work& chosen);

}  // namespace coatwright
