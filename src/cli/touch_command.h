#pragma once

#include "cli/common.h"

namespace coatwright {

/// `touch`: logs what a touch test found of a coat, and says what it means for the next step.
void add_touch(CLI::App& app, const GlobalOptions& global, Work& chosen);

}  // namespace coatwright
