#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "air/air_record.h"
#include "base/result.h"
#include "base/zone.h"

/// Air readings as data loggers and weather services export them: text tables with commas,
/// semicolons or tabs, decimal points or commas, with or without a heading, in any of the common
/// time forms.
namespace coatwright {

/// What the user says about a file that the file itself does not.
struct LoggerFileHints {
  enum class DateOrder { kYearMonthDay, kDayMonthYear, kMonthDayYear };
  enum class TemperatureUnit { kCelsius, kFahrenheit };

  std::optional<DateOrder> date_order;
  std::optional<TemperatureUnit> unit;
  bool utc = false;       ///< Times without an offset are UTC, not the shop's local time.
  bool skip_bad = false;  ///< Leave out rows that cannot be read instead of refusing the file.
};

/// A gap between neighbouring readings that is longer than AirRecord::kLongestGap.
struct LoggerGap {
  Time from;
  Time to;
};

struct LoggerFileContent {
  std::vector<AirEntry> entries;  ///< By time, each time once.
  std::size_t duplicates = 0;     ///< Rows left out because their time stood there already.
  std::vector<LoggerGap> gaps;
  std::vector<std::string> skipped;  ///< "line 7: ..." of each row left out under skip_bad.
  std::string understood;  ///< How it was read, in a sentence: separator, columns, units, times.
};

/// Reads a whole file.
/// @param text   the file's content (a UTF-8 byte-order mark is allowed).
/// @param origin what the entries become: kLogger, kForecast or kOutdoors.
/// Errors: kInputFile. A broken row names its line, column and value; a file whose dates,
/// separator, units or columns can be read in two ways is refused with the question to answer and
/// the option that answers it (--date-order, --unit). The repeated autumn hour in local time is
/// told apart by the order of the rows; where that does not decide it, the file is refused.
[[nodiscard]] Result<LoggerFileContent> read_logger_file(std::string_view text,
                                                         AirOrigin origin,
                                                         const Zone& zone,
                                                         const LoggerFileHints& hints);

}  // namespace coatwright
