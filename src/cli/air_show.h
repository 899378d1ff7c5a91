#pragma once

#include <string>

#include "base/result.h"
#include "cli/cold_piece.h"
#include "cli/common.h"

namespace coatwright {

/// The options of `air show`, as typed; empty: not given.
struct AirShowOptions {
  std::string from;
  std::string to;
  ColdPieceOptions cold_piece;
};

/// Shows the shop's air hour by hour, with a chart, and when a cold piece's surface keeps off the
/// dew point. @return kNo when it does not in the span shown. Errors: kTime, kUsage, kOutOfRange,
/// kNotFound, kStore.
[[nodiscard]] Result<ExitCode> run_air_show(const AirShowOptions& options,
                                            const GlobalOptions& global);

}  // namespace coatwright
