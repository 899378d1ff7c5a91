#pragma once

#include "cli/common.h"

namespace coatwright {

/// `piece ticket`: the paper that goes with a piece through the shop. @param piece the group.
void add_ticket(CLI::App& piece, const GlobalOptions& global, Work& chosen);

}  // namespace coatwright
