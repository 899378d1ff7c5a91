#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/clock_text.h"
#include "base/result.h"

/// Days that are not as usual: holidays, and single days with hours of their own.
namespace coatwright {

/// What holds on such a day.
struct SpecialDay {
  std::vector<ClockSpan> open;  ///< In order; none: the shop is closed.
  std::optional<int> people;    ///< None: as many as on any such weekday.
  bool operator==(const SpecialDay&) const = default;
};

using SpecialDays = std::map<date::local_days, SpecialDay>;

/// The first and the last of days that follow each other.
struct DayRange {
  date::local_days first;
  date::local_days last;
  bool operator==(const DayRange&) const = default;
};

/// A day of its own with what holds on it.
struct DatedDay {
  date::local_days day;
  SpecialDay special;
};

/// Reads "2027-05-01" or "2027-12-24..2028-01-02", both ends included, at most 366 days.
/// Errors: kUsage when it cannot be read, or ends before it begins.
[[nodiscard]] Result<DayRange> parse_day_range(std::string_view text);

/// Reads "2027-05-08 9:00-13:00, 14:00-16:00", and with people at the end "2027-05-08 9:00-13:00
/// 2". Errors: kUsage when it cannot be read, or hours overlap.
[[nodiscard]] Result<DatedDay> parse_open_day(std::string_view text);

/// Reads the hours of such a day: "9:00-13:00, 14:00-16:00". Errors: as parse_open_day().
[[nodiscard]] Result<std::vector<ClockSpan>> parse_day_hours(std::string_view text);

/// "09:00-13:00, 14:00-16:00", as parse_day_hours() reads it.
[[nodiscard]] std::string day_hours_text(const std::vector<ClockSpan>& hours);
/// "2027-05-08".
[[nodiscard]] std::string date_text(date::local_days day);

}  // namespace coatwright
