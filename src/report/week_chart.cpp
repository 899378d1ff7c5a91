#include "report/week_chart.h"

#include <algorithm>
#include <map>
#include <vector>

#include <date/date.h>
#include <fmt/format.h>

#include "report/part_rows.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

using std::chrono::hours;

constexpr std::size_t kWidth = 80;
constexpr std::size_t kLabel = 18;
constexpr std::size_t kHeading = 7;  // "Fri 12", and a blank

/// The whole hours of one day, from the first in which anybody is there to the last.
struct Day {
  Time first;
  int count = 0;

  [[nodiscard]] std::size_t columns() const {
    return std::max(kHeading, static_cast<std::size_t>(count)) + 1;
  }
};

void add_hours(const Interval& open, const Zone& zone, std::map<date::local_days, Interval>& days) {
  const auto day = date::floor<date::days>(zone.to_local(open.start));
  const auto found = days.find(day);
  if (found == days.end()) {
    days.emplace(day, open);
  } else {
    found->second.start = std::min(found->second.start, open.start);
    found->second.end = std::max(found->second.end, open.end);
  }
}

/// Days with hours up to the end of the last step, and days on which something was done outside.
std::vector<Day> days_of(const PlanView& view, Time last) {
  std::map<date::local_days, Interval> spans;
  for (const Interval& open : view.plan.hours) {
    if (open.start < last) {
      add_hours(open, view.zone, spans);
    }
  }
  std::vector<Day> days;
  for (const auto& [day, span] : spans) {
    const Time first = std::chrono::floor<hours>(span.start);
    const auto count = std::chrono::ceil<hours>(span.end - first).count();
    days.push_back({first, static_cast<int>(count)});
  }
  return days;
}

/// What matters most of what happens in the hour.
char mark_of(const PartRow& row, Time from, Time to) {
  constexpr std::string_view kByWeight = "Co=.";
  char mark = ' ';
  const auto put = [&](char other) {
    if (mark == ' ' || kByWeight.find(other) < kByWeight.find(mark)) {
      mark = other;
    }
  };
  if (row.begun < to && row.ended > from) {
    put('.');
  }
  for (const PlanStep* step : row.steps) {
    const bool within = step->start < to && step->end > from;
    if (!within) {
      continue;
    }
    if (step->kind == StepKind::kApply) {
      put('C');
    } else if (step->attended) {
      put('o');
    } else if (step->benches > 0) {  // nobody is needed, and the bench is taken
      put('=');
    }
  }
  return mark;
}

std::string row_text(const PartRow& row, const std::vector<Day>& days) {
  std::string text = padded(shortened(row.label, kLabel - 1), kLabel);
  for (const Day& day : days) {
    std::string cells;
    for (int hour = 0; hour < day.count; ++hour) {
      const Time from = day.first + hours(hour);
      cells += mark_of(row, from, from + hours(1));
    }
    text += "|" + padded(cells, day.columns() - 1);
  }
  return text + "|\n";
}

std::string heading(const std::vector<Day>& days, const Zone& zone) {
  std::string names(kLabel, ' ');
  std::string clocks(kLabel, ' ');
  for (const Day& day : days) {
    const std::string name = short_moment(day.first, zone);
    names += " " + padded(name.substr(0, name.find(' ', name.find(' ') + 1)), day.columns() - 1);
    clocks += " " + padded(show_clock(day.first, zone), day.columns() - 1);
  }
  const auto trimmed = [](std::string text) {
    text.erase(text.find_last_not_of(' ') + 1);
    return text + "\n";
  };
  return trimmed(names) + trimmed(clocks);
}

/// As many days as fit, from one on.
std::vector<Day> block_from(const std::vector<Day>& days, std::size_t first) {
  std::vector<Day> block;
  std::size_t width = kLabel + 1;
  for (std::size_t i = first; i < days.size(); ++i) {
    if (!block.empty() && width + days[i].columns() > kWidth) {
      break;
    }
    width += days[i].columns();
    block.push_back(days[i]);
  }
  return block;
}

}  // namespace

std::string week_chart(const PlanView& view) {
  const std::vector<PartRow> rows = part_rows(view.plan);
  if (rows.empty()) {
    return "";
  }
  Time last = rows.front().ended;
  for (const PartRow& row : rows) {
    last = std::max(last, row.ended);
  }
  const std::vector<Day> days = days_of(view, last);
  std::string text;
  for (std::size_t first = 0; first < days.size();) {
    const std::vector<Day> block = block_from(days, first);
    text += (text.empty() ? "" : "\n") + heading(block, view.zone);
    for (const PartRow& row : rows) {
      text += row_text(row, block);
    }
    first += block.size();
  }
  return text.empty() ? ""
                      : "\n" + underlined("Hour by hour", '-') +
                            "C coat   o other work   . dries or waits   = in clamps\n\n" + text;
}

}  // namespace coatwright
