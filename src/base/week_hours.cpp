#include "base/week_hours.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <optional>

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

std::vector<std::string_view> split(std::string_view text, char separator) {
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

tl::unexpected<Error> unreadable(std::string_view part) {
  return fail(ErrorCode::kUsage,
              fmt::format("shop hours '{}' cannot be read: write \"Mon-Fri 8:00-17:00; Sat "
                          "9:00-13:00\", with each end after its start and 24:00 the latest",
                          part));
}

std::string show(minutes of_day) {
  return fmt::format("{:02}:{:02}", of_day.count() / 60, of_day.count() % 60);
}

}  // namespace

Result<WeekHours> WeekHours::parse(std::string_view text) {
  WeekHours hours;
  for (const std::string_view part : split(text, ';')) {
    if (part.empty()) {
      continue;
    }
    const auto blank = part.find(' ');
    const auto days = split(part.substr(0, blank), '-');
    const auto first = day_named(days.front());
    const auto last = day_named(days.back());
    if (blank == std::string_view::npos || !first || !last || days.size() > 2) {
      return unreadable(part);
    }
    for (const std::string_view range : split(part.substr(blank + 1), ',')) {
      const auto ends = split(range, '-');
      const auto start = clock_of(ends.front());
      const auto end = clock_of(ends.back());
      if (ends.size() != 2 || !start || !end || *end <= *start) {
        return unreadable(part);
      }
      for (unsigned day = *first;; day = (day + 1) % 7) {
        hours.openings_.push_back({date::weekday(day), *start, *end});
        if (day == *last) {
          break;
        }
      }
    }
  }
  if (hours.openings_.empty()) {
    return unreadable(text);
  }
  // Monday first, as people list a week.
  std::sort(hours.openings_.begin(), hours.openings_.end(), [](const Opening& a, const Opening& b) {
    return std::pair(a.day.iso_encoding(), a.start) < std::pair(b.day.iso_encoding(), b.start);
  });
  for (std::size_t i = 1; i < hours.openings_.size(); ++i) {
    const Opening& before = hours.openings_[i - 1];
    const Opening& here = hours.openings_[i];
    if (before.day == here.day && here.start < before.end) {
      return fail(ErrorCode::kUsage,
                  fmt::format("shop hours overlap on {}: {}-{} and {}-{}",
                              kDays[here.day.c_encoding()],
                              show(before.start),
                              show(before.end),
                              show(here.start),
                              show(here.end)));
    }
  }
  return hours;
}

std::string WeekHours::text() const {
  std::string whole;
  const Opening* before = nullptr;
  for (const Opening& here : openings_) {
    const bool same_day = before != nullptr && before->day == here.day;
    if (before != nullptr) {
      whole += same_day ? ", " : "; ";
    }
    if (!same_day) {
      whole += fmt::format("{} ", kDays[here.day.c_encoding()]);
    }
    whole += show(here.start) + "-" + show(here.end);
    before = &here;
  }
  return whole;
}

std::vector<Interval> WeekHours::between(Time from, Time to, const Zone& zone) const {
  std::vector<Interval> intervals;
  const auto first = date::floor<date::days>(zone.to_local(from)) - date::days(1);
  const auto last = date::floor<date::days>(zone.to_local(to));
  for (auto day = first; day <= last; day += date::days(1)) {
    for (const Opening& opening : openings_) {
      if (opening.day != date::weekday(day)) {
        continue;
      }
      const Time start = std::max(from, zone.to_time_leniently(day + opening.start));
      const Time end = std::min(to, zone.to_time_leniently(day + opening.end));
      if (start >= end) {
        continue;
      }
      if (!intervals.empty() && intervals.back().end == start) {
        intervals.back().end = end;
      } else {
        intervals.push_back({start, end});
      }
    }
  }
  return intervals;
}

}  // namespace coatwright
