#pragma once

#include <string>

#include "base/result.h"
#include "cli/common.h"

namespace coatwright {

/// The options of `air import`, as typed; empty: not given.
struct AirImportOptions {
  std::string file;
  std::string place;
  std::string kind;
  std::string unit;
  std::string date_order;
  bool utc = false;
  bool skip_bad = false;
};

/// Stores a file of readings and reports how it was understood. Errors: kInputFile, kStore.
[[nodiscard]] Result<ExitCode> run_air_import(const AirImportOptions& options,
                                              const GlobalOptions& global);

}  // namespace coatwright
