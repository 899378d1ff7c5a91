#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <date/date.h>

/// What the grammars of shop hours, people and single days have in common.
namespace coatwright {

/// A stretch of a day, in minutes after local midnight; the end is after the start, at most 24:00.
struct ClockSpan {
  std::chrono::minutes start;
  std::chrono::minutes end;
  bool operator==(const ClockSpan&) const = default;
};

/// The parts between separators, without the blanks around them; one at least.
[[nodiscard]] std::vector<std::string_view> split_trimmed(std::string_view text, char separator);

/// The parts between blanks; none of an empty text.
[[nodiscard]] std::vector<std::string_view> words_of(std::string_view text);

/// @param text "Mon", "monday", "Mon-Fri" or, over the weekend, "Fri-Mon": names from their first
/// three letters on. @return the days in turn; none where it is no such text.
[[nodiscard]] std::vector<date::weekday> days_of(std::string_view text);

/// @param text "8:00-17:00". @return nothing where it is no such text, or ends before it starts.
[[nodiscard]] std::optional<ClockSpan> clock_span_of(std::string_view text);

/// @param text digits alone. @return the number, nothing above `most`.
[[nodiscard]] std::optional<int> count_of(std::string_view text, int most);

/// "Mon".
[[nodiscard]] std::string_view day_name(date::weekday day);
/// "08:00".
[[nodiscard]] std::string clock_text(std::chrono::minutes of_day);
/// "08:00-17:00".
[[nodiscard]] std::string clock_text(const ClockSpan& span);

}  // namespace coatwright
