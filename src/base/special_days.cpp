#include "base/special_days.h"

#include <algorithm>

#include <fmt/format.h>

namespace coatwright {
namespace {

constexpr int kMostDays = 366;
constexpr int kMostPeople = 99;
constexpr int kLastYear = 2999;

tl::unexpected<Error> unreadable(std::string_view what, std::string_view text) {
  return fail(ErrorCode::kUsage, fmt::format("'{}' cannot be read: write {}", text, what));
}

constexpr std::string_view kOneOrMore = "a day, 2027-05-01, or days, 2027-12-24..2028-01-02";
constexpr std::string_view kOpenForm =
    "a day with its hours, \"2027-05-08 9:00-13:00\", and where others are there than usual how "
    "many, \"2027-05-08 9:00-13:00 2\"";

/// @return the day of "2027-05-01"; nothing for another form or a day that is in no calendar.
std::optional<date::local_days> day_of(std::string_view text) {
  const auto parts = split_trimmed(text, '-');
  if (parts.size() != 3 || text.size() != 10 || parts[0].size() != 4 || parts[1].size() != 2) {
    return std::nullopt;
  }
  const auto year = count_of(parts[0], kLastYear);
  const auto month = count_of(parts[1], 12);
  const auto day = count_of(parts[2], 31);
  if (!year || !month || !day) {
    return std::nullopt;
  }
  const auto date = date::year(*year) / *month / *day;
  return date.ok() ? std::optional(date::local_days(date)) : std::nullopt;
}

}  // namespace

Result<DayRange> parse_day_range(std::string_view text) {
  const auto dots = text.find("..");
  const auto first = day_of(text.substr(0, dots));
  const auto last = dots == std::string_view::npos ? first : day_of(text.substr(dots + 2));
  if (!first || !last) {
    return unreadable(kOneOrMore, text);
  }
  if (*last < *first || *last - *first >= date::days(kMostDays)) {
    return fail(
        ErrorCode::kUsage,
        fmt::format(
            "'{}' must end on its first day or later, and be at most {} days", text, kMostDays));
  }
  return DayRange{*first, *last};
}

Result<std::vector<ClockSpan>> parse_day_hours(std::string_view text) {
  std::vector<ClockSpan> hours;
  for (const std::string_view part : split_trimmed(text, ',')) {
    const auto span = clock_span_of(part);
    if (!span) {
      return unreadable("hours, \"9:00-13:00, 14:00-16:00\"", text);
    }
    hours.push_back(*span);
  }
  std::sort(hours.begin(), hours.end(), [](const ClockSpan& a, const ClockSpan& b) {
    return a.start < b.start;
  });
  for (std::size_t i = 1; i < hours.size(); ++i) {
    if (hours[i].start < hours[i - 1].end) {
      return fail(
          ErrorCode::kUsage,
          fmt::format(
              "the hours {} and {} overlap", clock_text(hours[i - 1]), clock_text(hours[i])));
    }
  }
  return hours;
}

Result<DatedDay> parse_open_day(std::string_view text) {
  const auto words = words_of(text);
  const auto day = words.empty() ? std::nullopt : day_of(words.front());
  if (!day || words.size() < 2) {
    return unreadable(kOpenForm, text);
  }
  DatedDay dated{*day, {}};
  const std::string_view last = words.back();
  auto end = text.size();
  if (last.find(':') == std::string_view::npos) {
    dated.special.people = count_of(last, kMostPeople);
    if (!dated.special.people || *dated.special.people < 1) {
      return unreadable(kOpenForm, text);
    }
    end = static_cast<std::size_t>(last.data() - text.data());
  }
  const auto begin = static_cast<std::size_t>(words[1].data() - text.data());
  if (begin >= end) {
    return unreadable(kOpenForm, text);
  }
  auto hours = parse_day_hours(text.substr(begin, end - begin));
  if (!hours) {
    return pass_on(hours.error());
  }
  dated.special.open = std::move(*hours);
  return dated;
}

std::string day_hours_text(const std::vector<ClockSpan>& hours) {
  std::string text;
  for (const ClockSpan& span : hours) {
    text += (text.empty() ? "" : ", ") + clock_text(span);
  }
  return text;
}

std::string date_text(date::local_days day) {
  const date::year_month_day date(day);
  return fmt::format("{:04}-{:02}-{:02}",
                     static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()));
}

}  // namespace coatwright
