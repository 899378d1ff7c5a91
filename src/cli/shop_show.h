#pragma once

#include "cli/common.h"

namespace coatwright {

/// `shop show`: all settings, which of them are defaults, and the days that are not as usual.
[[nodiscard]] Result<ExitCode> run_shop_show(const GlobalOptions& global);

}  // namespace coatwright
