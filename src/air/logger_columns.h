#pragma once

#include <chrono>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "air/logger_cells.h"
#include "air/logger_file.h"
#include "base/result.h"

/// Which columns of a logger file hold what.
namespace coatwright {

struct LoggerColumn {
  std::size_t index = 0;
  std::string heading;  ///< Empty when the file has none.
};

struct LoggerLayout {
  char separator = ',';
  std::size_t first_line = 1;  ///< The first line that may be a reading.
  std::size_t cells = 0;       ///< The most cells a row may have.
  std::string_view heading_line;
  LoggerColumn time;                  ///< The date alone when there is a clock column.
  std::optional<LoggerColumn> clock;  ///< The time of day where it stands apart.
  LoggerColumn temperature;
  LoggerColumn humidity;
  CellUnit temperature_unit = CellUnit::kNone;  ///< As the heading says.
  bool says_percent = false;
  bool fraction = false;
  std::optional<std::chrono::seconds> offset;  ///< As the heading says, such as "Time (UTC)".
};

/// Finds separator and columns from the first lines of a file.
/// Errors: kInputFile when nothing fits, or more than one reading does.
[[nodiscard]] Result<LoggerLayout> find_layout(std::string_view text, const LoggerFileHints& hints);

}  // namespace coatwright
