#include "base/week_hours.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/clock_text.h"

namespace coatwright {
namespace {

tl::unexpected<Error> unreadable(std::string_view part) {
  return fail(ErrorCode::kUsage,
              fmt::format("shop hours '{}' cannot be read: write \"Mon-Fri 8:00-17:00; Sat "
                          "9:00-13:00\", with each end after its start and 24:00 the latest",
                          part));
}

}  // namespace

Result<WeekHours> WeekHours::parse(std::string_view text) {
  WeekHours hours;
  for (const std::string_view part : split_trimmed(text, ';')) {
    if (part.empty()) {
      continue;
    }
    const auto blank = part.find(' ');
    const auto days = days_of(part.substr(0, blank));
    if (blank == std::string_view::npos || days.empty()) {
      return unreadable(part);
    }
    for (const std::string_view range : split_trimmed(part.substr(blank + 1), ',')) {
      const auto span = clock_span_of(range);
      if (!span) {
        return unreadable(part);
      }
      for (const date::weekday day : days) {
        hours.openings_.push_back({day, span->start, span->end});
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
                              day_name(here.day),
                              clock_text(before.start),
                              clock_text(before.end),
                              clock_text(here.start),
                              clock_text(here.end)));
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
      whole += fmt::format("{} ", day_name(here.day));
    }
    whole += clock_text(here.start) + "-" + clock_text(here.end);
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
