#include "base/shop_times.h"

#include <algorithm>

namespace coatwright {
namespace {

using Stretches = std::vector<WeekPeople::Stretch>;

/// The usual openings of a weekday.
std::vector<ClockSpan> usual_spans(const WeekHours& hours, date::weekday day) {
  std::vector<ClockSpan> spans;
  for (const WeekHours::Opening& opening : hours.openings()) {
    if (opening.day == day) {
      spans.push_back({opening.start, opening.end});
    }
  }
  return spans;
}

/// Who is there on one day, by its clock; stretches without people included.
Stretches stretches_of(const ShopTimes& times, date::local_days day) {
  const date::weekday weekday(day);
  const auto special = times.special.find(day);
  const bool usual = special == times.special.end();
  const auto spans = usual ? usual_spans(times.hours, weekday) : special->second.open;
  Stretches whole_day = times.people.on(weekday);
  if (!usual && special->second.people) {
    whole_day = WeekPeople(*special->second.people).on(weekday);
  }
  Stretches stretches;
  for (const ClockSpan& span : spans) {
    for (const WeekPeople::Stretch& there : whole_day) {
      const ClockSpan both = {std::max(span.start, there.span.start),
                              std::min(span.end, there.span.end)};
      if (both.start < both.end) {
        stretches.push_back({both, there.people});
      }
    }
  }
  return stretches;
}

}  // namespace

std::vector<PeopledHours> ShopTimes::staffed(Time from, Time to, const Zone& zone) const {
  std::vector<PeopledHours> all;
  const auto first = date::floor<date::days>(zone.to_local(from)) - date::days(1);
  const auto last = date::floor<date::days>(zone.to_local(to));
  for (auto day = first; day <= last; day += date::days(1)) {
    for (const WeekPeople::Stretch& stretch : stretches_of(*this, day)) {
      const Time start = std::max(from, zone.to_time_leniently(day + stretch.span.start));
      const Time end = std::min(to, zone.to_time_leniently(day + stretch.span.end));
      if (start >= end || stretch.people == 0) {
        continue;
      }
      if (!all.empty() && all.back().open.end == start && all.back().people == stretch.people) {
        all.back().open.end = end;
      } else {
        all.push_back({{start, end}, stretch.people});
      }
    }
  }
  return all;
}

std::vector<Interval> ShopTimes::open(Time from, Time to, const Zone& zone) const {
  std::vector<Interval> all;
  for (const PeopledHours& one : staffed(from, to, zone)) {
    if (!all.empty() && all.back().end == one.open.start) {
      all.back().end = one.open.end;
    } else {
      all.push_back(one.open);
    }
  }
  return all;
}

}  // namespace coatwright
