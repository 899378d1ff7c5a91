#pragma once

#include "cli/common.h"

namespace coatwright {

/// `advise`: ways to make the date, how late work may begin, and what a little more would buy.
void add_advise(CLI::App& app, const GlobalOptions& global, Work& chosen);

}  // namespace coatwright
