#include "report/shop_hours.h"

#include <date/date.h>
#include <fmt/format.h>

#include "report/plan_words.h"

namespace coatwright {
namespace {

date::local_days day_of(Time time, const Zone& zone) {
  return date::floor<date::days>(zone.to_local(time));
}

// Neighbouring days with the same hours.
struct SameDays {
  Time first;
  Time last;
  std::string hours;
};

std::vector<SameDays> grouped(const std::vector<Interval>& hours, Time until, const Zone& zone) {
  std::vector<SameDays> groups;
  for (std::size_t i = 0; i < hours.size() && hours[i].start <= until; ++i) {
    const auto day = day_of(hours[i].start, zone);
    if (!groups.empty() && day == day_of(groups.back().last, zone)) {
      continue;
    }
    const std::string text = shop_hours_on_day(hours, hours[i].start, zone);
    const bool joins = !groups.empty() && groups.back().hours == text &&
                       day - day_of(groups.back().last, zone) == date::days(1);
    if (joins) {
      groups.back().last = hours[i].start;
    } else {
      groups.push_back({hours[i].start, hours[i].start, text});
    }
  }
  return groups;
}

// "Fri 5 March 2027" without its year.
std::string day_text(Time time, const Zone& zone) {
  const std::string text = show_date(time, zone);
  return text.substr(0, text.rfind(' '));
}

}  // namespace

std::string shop_hours_on_day(const std::vector<Interval>& hours, Time time, const Zone& zone) {
  std::string text;
  for (const Interval& opening : hours) {
    if (day_of(opening.start, zone) == day_of(time, zone)) {
      text += (text.empty() ? "" : ", ") + span_text(opening.start, opening.end, zone);
    }
  }
  return text;
}

std::string shop_hours_text(const std::vector<Interval>& hours, Time until, const Zone& zone) {
  constexpr std::size_t kMostGroups = 8;
  const auto groups = grouped(hours, until, zone);
  std::string text;
  for (std::size_t i = 0; i < groups.size() && i < kMostGroups; ++i) {
    const std::string first = day_text(groups[i].first, zone);
    const std::string last = day_text(groups[i].last, zone);
    text += fmt::format("{}{}{} {}",
                        i == 0 ? "" : "; ",
                        first,
                        first == last ? "" : " to " + last,
                        groups[i].hours);
  }
  return groups.size() > kMostGroups ? text + "; and so on" : text;
}

}  // namespace coatwright
