#pragma once

#include "cli/common.h"

namespace coatwright {

/// `moisture`: logs the wood's moisture as measured.
void add_moisture(CLI::App& app, const GlobalOptions& global, Work& chosen);

}  // namespace coatwright
