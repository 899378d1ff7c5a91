#pragma once

#include <string>

#include "base/result.h"
#include "cli/common.h"

namespace coatwright {

/// The options of `air show`, as typed; empty: not given.
struct AirShowOptions {
  std::string from;
  std::string to;
};

/// Shows the shop's air hour by hour, with a chart. Errors: kTime, kUsage, kStore.
[[nodiscard]] Result<ExitCode> run_air_show(const AirShowOptions& options,
                                            const GlobalOptions& global);

}  // namespace coatwright
