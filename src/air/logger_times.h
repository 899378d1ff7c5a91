#pragma once

#include <array>
#include <chrono>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "air/logger_file.h"
#include "base/result.h"
#include "base/zone.h"

/// Dates and times as they stand in the cells of logger files.
namespace coatwright {

/// What a cell says about a moment; which of its three numbers is the day may still be open.
struct CellTime {
  enum class Form : unsigned char {
    kNoDate,     ///< A clock time alone.
    kYearFirst,  ///< 2027-03-05, 2027/03/05
    kDotted,     ///< 05.03.2027: always day first.
    kOpen,       ///< 03/05/2027, 03-05-27: day first or month first.
  };

  Form form = Form::kNoDate;
  char mark = ' ';  ///< Between the numbers of the date: '-', '/' or '.'.
  bool short_year =
      false;  ///< The last number has two digits, so a kOpen date may begin with the year.
  std::array<int, 3> parts{};
  std::optional<std::chrono::seconds>
      clock;  ///< After midnight; fractions of a second are dropped.
  std::optional<std::chrono::seconds> offset;  ///< East of UTC.

  [[nodiscard]] bool has_date() const { return form != Form::kNoDate; }
};

/// @return what the cell says, or nothing when it is no date and no time of day.
[[nodiscard]] std::optional<CellTime> parse_cell_time(std::string_view cell);

/// Reads the offset of "UTC", "GMT+1" or "UTC-05:00" anywhere in a heading.
[[nodiscard]] std::optional<std::chrono::seconds> offset_in_heading(std::string_view heading);

using DateOrder = LoggerFileHints::DateOrder;

/// @param order used for open dates alone. @return the day, or nothing when there is no such date.
[[nodiscard]] std::optional<date::local_days> day_of(const CellTime& time,
                                                     std::optional<DateOrder> order);

/// Finds out of all open dates of a file in which order their numbers stand.
class DateOrderFinder {
 public:
  void add(std::size_t line, std::string_view cell, const CellTime& time);

  /// @return the order, or nothing when no date is open.
  /// Errors: kInputFile with the question when the dates leave more than one order or none.
  [[nodiscard]] Result<std::optional<DateOrder>> decide() const;

 private:
  struct Place {
    std::size_t line = 0;
    std::string value;
  };
  unsigned possible_ = 0;  // a bit per DateOrder; no date has been seen while first_.line is 0
  Place first_;
  Place conflict_;
};

/// "day.month.year", "month/day/year" ... as the cell writes it.
[[nodiscard]] std::string describe_order(const CellTime& time, std::optional<DateOrder> order);

}  // namespace coatwright
