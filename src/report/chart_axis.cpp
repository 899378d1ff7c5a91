#include "report/chart_axis.h"

#include <algorithm>

#include <date/date.h>

namespace coatwright {
namespace {

constexpr double kClosedWidth = 1.0 / 8.0;  // of an hour of work (taste)

double hours_of(std::chrono::seconds span) {
  return std::chrono::duration<double, std::ratio<3600>>(span).count();
}

Time midnight(date::local_days day, const Zone& zone) {
  return zone.to_time_leniently(LocalTime(day));
}

/// When somebody is there or at work between two moments, in order and joined.
std::vector<Interval> open_spans(const Plan& plan, Time from, Time to) {
  std::vector<Interval> spans;
  const auto add = [&](Time start, Time end) {
    const Interval cut{std::max(start, from), std::min(end, to)};
    if (cut.start < cut.end) {
      spans.push_back(cut);
    }
  };
  for (const Interval& open : plan.hours) {
    add(open.start, open.end);
  }
  for (const PlanStep& step : plan.steps) {
    if (step.attended) {
      add(step.start, step.end);
    }
  }
  std::sort(spans.begin(), spans.end(), [](const Interval& a, const Interval& b) {
    return a.start < b.start;
  });
  std::vector<Interval> joined;
  for (const Interval& span : spans) {
    if (!joined.empty() && span.start <= joined.back().end) {
      joined.back().end = std::max(joined.back().end, span.end);
    } else {
      joined.push_back(span);
    }
  }
  return joined;
}

/// "Fri 5 March".
std::string day_name(Time time, const Zone& zone) {
  const std::string date = show_date(time, zone);
  return date.substr(0, date.rfind(' '));
}

}  // namespace

ChartAxis::ChartAxis(const Plan& plan, const Zone& zone, Time first, int days) : zone_(zone) {
  const auto day = date::floor<date::days>(zone.to_local(first));
  for (int i = 0; i < days; ++i) {  // a stretch never runs over a midnight
    Time at = midnight(day + date::days(i), zone);
    const Time next = midnight(day + date::days(i + 1), zone);
    for (const Interval& open : open_spans(plan, at, next)) {
      add({at, open.start}, false);
      add(open, true);
      at = open.end;
    }
    add({at, next}, false);
  }
}

void ChartAxis::add(Interval span, bool open) {
  if (span.start < span.end) {
    stretches_.push_back({span, open, weight_});
    weight_ += hours_of(span.end - span.start) * (open ? 1.0 : kClosedWidth);
  }
}

double ChartAxis::share(Time time) const {
  for (const Stretch& stretch : stretches_) {
    if (time < stretch.span.end) {
      const double into = hours_of(std::max(time, stretch.span.start) - stretch.span.start);
      return (stretch.before + into * (stretch.open ? 1.0 : kClosedWidth)) / weight_;
    }
  }
  return 1.0;
}

std::vector<ChartTick> ChartAxis::ticks() const {
  std::vector<ChartTick> ticks;
  for (const Stretch& stretch : stretches_) {
    const auto local = zone_.to_local(stretch.span.start);
    if (local == date::floor<date::days>(local)) {
      ticks.push_back({share(stretch.span.start), day_name(stretch.span.start, zone_), true});
    }
    Time hour = std::chrono::ceil<std::chrono::hours>(stretch.span.start);
    for (; stretch.open && hour <= stretch.span.end; hour += std::chrono::hours(1)) {
      const auto clock = zone_.to_local(hour) - date::floor<date::days>(zone_.to_local(hour));
      const bool named = std::chrono::floor<std::chrono::hours>(clock).count() % 2 == 0;
      if (clock > std::chrono::hours(0)) {
        ticks.push_back({share(hour), named ? show_clock(hour, zone_) : "", false});
      }
    }
  }
  return ticks;
}

std::vector<ChartBar> ChartAxis::closed() const {
  std::vector<ChartBar> bars;
  for (const Stretch& stretch : stretches_) {
    if (!stretch.open) {
      bars.push_back({share(stretch.span.start), share(stretch.span.end), ChartFill::kHatched, ""});
    }
  }
  return bars;
}

}  // namespace coatwright
