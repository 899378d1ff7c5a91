#include "base/week_people.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

namespace coatwright {
namespace {

using std::chrono::minutes;

constexpr int kMostPeople = 99;
constexpr ClockSpan kAllDay = {minutes(0), minutes(24 * 60)};

tl::unexpected<Error> unreadable(std::string_view part) {
  return fail(ErrorCode::kUsage,
              fmt::format("people '{}' cannot be read: write how many are there, 1 to {}, and then "
                          "when they are others, as in \"3; Fri 2; Sat 9:00-13:00 1\"",
                          part,
                          kMostPeople));
}

/// "Mon-Wed", or "Mon" for one day.
std::string days_text(const std::vector<date::weekday>& days) {
  return days.size() == 1 ? std::string(day_name(days.front()))
                          : fmt::format("{}-{}", day_name(days.front()), day_name(days.back()));
}

}  // namespace

Result<WeekPeople::Exception> WeekPeople::parse_exception(std::string_view part) {
  const auto cut = part.find(' ');
  const auto last = part.rfind(' ');
  if (cut == std::string_view::npos) {
    return unreadable(part);
  }
  Exception exception;
  exception.days = days_of(part.substr(0, cut));
  const auto people = count_of(part.substr(last + 1), kMostPeople);
  if (exception.days.empty() || !people) {
    return unreadable(part);
  }
  exception.people = *people;
  if (cut == last) {
    return exception;
  }
  for (const std::string_view span : split_trimmed(part.substr(cut + 1, last - cut - 1), ',')) {
    const auto read = clock_span_of(span);
    if (!read) {
      return unreadable(part);
    }
    exception.spans.push_back(*read);
  }
  return exception;
}

Result<WeekPeople> WeekPeople::parse(std::string_view text) {
  const auto parts = split_trimmed(text, ';');
  const auto usual = count_of(parts.front(), kMostPeople);
  if (!usual || *usual < 1) {
    return unreadable(parts.front());
  }
  WeekPeople people(*usual);
  for (std::size_t i = 1; i < parts.size(); ++i) {
    if (parts[i].empty()) {
      continue;
    }
    auto exception = parse_exception(parts[i]);
    if (!exception) {
      return pass_on(exception.error());
    }
    people.exceptions_.push_back(std::move(*exception));
  }
  return people;
}

std::string WeekPeople::text() const {
  std::string whole = fmt::format("{}", usual_);
  for (const Exception& exception : exceptions_) {
    whole += "; " + days_text(exception.days);
    for (std::size_t i = 0; i < exception.spans.size(); ++i) {
      whole += (i == 0 ? " " : ", ") + clock_text(exception.spans[i]);
    }
    whole += fmt::format(" {}", exception.people);
  }
  return whole;
}

std::vector<WeekPeople::Stretch> WeekPeople::on(date::weekday day) const {
  std::vector<Stretch> asked;  // what is said of the day, the later overruling the earlier
  for (const Exception& exception : exceptions_) {
    if (std::find(exception.days.begin(), exception.days.end(), day) == exception.days.end()) {
      continue;
    }
    const auto spans = exception.spans.empty() ? std::vector{kAllDay} : exception.spans;
    for (const ClockSpan& span : spans) {
      asked.push_back({span, exception.people});
    }
  }
  std::set<minutes> cuts = {kAllDay.start, kAllDay.end};
  for (const Stretch& stretch : asked) {
    cuts.insert({stretch.span.start, stretch.span.end});
  }
  std::vector<Stretch> stretches;
  for (auto start = cuts.begin(), end = std::next(start); end != cuts.end(); ++start, ++end) {
    const auto said = std::find_if(asked.rbegin(), asked.rend(), [&](const Stretch& stretch) {
      return stretch.span.start <= *start && *end <= stretch.span.end;
    });
    const int people = said == asked.rend() ? usual_ : said->people;
    if (!stretches.empty() && stretches.back().people == people) {
      stretches.back().span.end = *end;
    } else {
      stretches.push_back({{*start, *end}, people});
    }
  }
  return stretches;
}

}  // namespace coatwright
