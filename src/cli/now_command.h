#pragma once

#include "cli/common.h"

namespace coatwright {

void add_now(CLI::App& app, const GlobalOptions& global, Work& chosen);

/// The call without a command: the day at a glance, or how to begin where nothing is stored.
[[nodiscard]] Result<ExitCode> show_today(const GlobalOptions& global);

}  // namespace coatwright
