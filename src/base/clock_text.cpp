#include "base/clock_text.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>

#include <fmt/format.h>

namespace coatwright {
namespace {

using std::chrono::minutes;

constexpr std::array<std::string_view, 7> kDays = {"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};

std::string_view trim(std::string_view text) {
  while (!text.empty() && std::isspace(static_cast<unsigned char>(text.front())) != 0) {
    text.remove_prefix(1);
  }
  while (!text.empty() && std::isspace(static_cast<unsigned char>(text.back())) != 0) {
    text.remove_suffix(1);
  }
  return text;
}

/// @param name a weekday's name from its first three letters on: "Mon", "monday", but not "Monkey".
std::optional<unsigned> day_named(std::string_view name) {
  constexpr std::array<std::string_view, 7> kNames = {
      "sunday", "monday", "tuesday", "wednesday", "thursday", "friday", "saturday"};
  const auto same = [](char a, char b) { return std::tolower(static_cast<unsigned char>(a)) == b; };
  for (unsigned i = 0; i < kNames.size(); ++i) {
    if (name.size() >= 3 && name.size() <= kNames[i].size() &&
        std::equal(name.begin(), name.end(), kNames[i].begin(), same)) {
      return i;
    }
  }
  return std::nullopt;
}

std::optional<minutes> clock_of(std::string_view text) {
  const auto cut = text.find(':');
  int hour = 0;
  int minute = 0;
  const auto number = [](std::string_view digits, int& into) {
    const auto [end, failure] = std::from_chars(digits.data(), digits.data() + digits.size(), into);
    return failure == std::errc() && end == digits.data() + digits.size() && into >= 0;
  };
  if (cut == std::string_view::npos || !number(text.substr(0, cut), hour) ||
      !number(text.substr(cut + 1), minute) || minute > 59 || hour > 24 ||
      hour * 60 + minute > 24 * 60) {
    return std::nullopt;
  }
  return minutes(hour * 60 + minute);
}

}  // namespace

std::vector<std::string_view> split_trimmed(std::string_view text, char separator) {
  std::vector<std::string_view> parts;
  while (true) {
    const auto cut = text.find(separator);
    parts.push_back(trim(text.substr(0, cut)));
    if (cut == std::string_view::npos) {
      return parts;
    }
    text.remove_prefix(cut + 1);
  }
}

std::vector<std::string_view> words_of(std::string_view text) {
  std::vector<std::string_view> words;
  for (const std::string_view word : split_trimmed(text, ' ')) {
    if (!word.empty()) {
      words.push_back(word);
    }
  }
  return words;
}

std::vector<date::weekday> days_of(std::string_view text) {
  const auto ends = split_trimmed(text, '-');
  const auto first = day_named(ends.front());
  const auto last = day_named(ends.back());
  if (!first || !last || ends.size() > 2) {
    return {};
  }
  std::vector<date::weekday> days = {date::weekday(*first)};
  for (unsigned day = *first; day != *last;) {
    day = (day + 1) % 7;
    days.emplace_back(day);
  }
  return days;
}

std::optional<ClockSpan> clock_span_of(std::string_view text) {
  const auto ends = split_trimmed(text, '-');
  const auto start = clock_of(ends.front());
  const auto end = clock_of(ends.back());
  if (ends.size() != 2 || !start || !end || *end <= *start) {
    return std::nullopt;
  }
  return ClockSpan{*start, *end};
}

std::optional<int> count_of(std::string_view text, int most) {
  int count = 0;
  const auto [end, failure] = std::from_chars(text.data(), text.data() + text.size(), count);
  if (failure != std::errc() || end != text.data() + text.size() || count < 0 || count > most ||
      text.starts_with('-')) {
    return std::nullopt;
  }
  return count;
}

std::string_view day_name(date::weekday day) {
  return kDays[day.c_encoding()];
}

std::string clock_text(minutes of_day) {
  return fmt::format("{:02}:{:02}", of_day.count() / 60, of_day.count() % 60);
}

std::string clock_text(const ClockSpan& span) {
  return clock_text(span.start) + "-" + clock_text(span.end);
}

}  // namespace coatwright
