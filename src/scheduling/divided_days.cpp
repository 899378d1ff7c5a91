#include "scheduling/divided_days.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

namespace coatwright {
namespace {

constexpr int kWholeDays = 3;        // at the beginning
constexpr double kOver = 1.0 / 3.0;  // of a unit of work, that a part may be short of its share
constexpr std::size_t kFewestDays = 2 * kWholeDays;
constexpr std::size_t kFewest = 10;  // activities of a side, for a division to be worth it

/// Open time without a long break.
struct Day {
  std::vector<StartSpan> open;  ///< first .. last moment of each stretch.

  [[nodiscard]] Tick length() const {
    Tick sum = 0;
    for (const StartSpan& span : open) {
      sum += span.last - span.first;
    }
    return sum;
  }
  /// The moment by which so much of it has been open.
  [[nodiscard]] Tick after(Tick open_time) const {
    for (const StartSpan& span : open) {
      if (open_time <= span.last - span.first) {
        return span.first + open_time;
      }
      open_time -= span.last - span.first;
    }
    return open.back().last;
  }
};

/// A side of an exclusion.
struct Side {
  std::vector<int> activities;
  Tick lasts = 0;     ///< So long after its work at most, as at the earliest starts.
  double work = 0.0;  ///< Open time that it takes, when as much is done at once as can be.
  Tick unit = 0;      ///< Lengths of its work are multiples of it.
  Tick mean = 0;      ///< Of those lengths.
};

Side side_of(const Project& project,
             const Windows& windows,
             const std::vector<Stretch>& stretches) {
  Side side;
  for (const Stretch& stretch : stretches) {
    const int activity = stretch.activity;
    const Tick start = windows.low(activity);
    const Tick end = start + project.activities[activity].length;
    side.activities.push_back(activity);
    if (const Tick until = stretch.until.at(start); until < kNeverTick) {
      side.lasts = std::max(side.lasts, until - end);
    }
  }
  std::sort(side.activities.begin(), side.activities.end());
  const auto twice = std::unique(side.activities.begin(), side.activities.end());
  side.activities.erase(twice, side.activities.end());
  if (side.activities.empty()) {
    return side;
  }
  std::vector<double> taken(project.resources.size(), 0.0);
  for (const int activity : side.activities) {
    side.unit = std::gcd(side.unit, project.activities[activity].length);
    side.mean += project.activities[activity].length;
    for (const Demand& demand : project.activities[activity].demands) {
      taken[demand.resource] += 1.0 * demand.amount * (demand.to - demand.from);
    }
  }
  side.mean /= static_cast<Tick>(side.activities.size());
  for (std::size_t i = 0; i < taken.size(); ++i) {
    side.work = std::max(side.work, taken[i] / std::max(1, most_of(project.resources[i].capacity)));
  }
  return side;
}

/// Open time of the work of both sides, divided where a break is longer than what lasts.
std::vector<Day> days_of(const Project& project,
                         const LagNetwork& network,
                         const Side& one,
                         const Side& other) {
  std::vector<StartSpan> spans;
  for (const Side* side : {&one, &other}) {
    for (const int activity : side->activities) {
      for (const StartSpan& span : network.grid(activity).spans()) {
        spans.push_back({span.first, span.last + project.activities[activity].length});
      }
    }
  }
  std::sort(spans.begin(), spans.end(), [](const StartSpan& a, const StartSpan& b) {
    return std::pair(a.first, a.last) < std::pair(b.first, b.last);
  });
  const Tick longest_pause = std::max(one.lasts, other.lasts);
  std::vector<Day> days;
  for (const StartSpan& span : spans) {
    if (days.empty() || span.first - days.back().open.back().last > longest_pause) {
      days.push_back({{span}});
    } else if (span.first <= days.back().open.back().last) {
      Tick& last = days.back().open.back().last;
      last = std::max(last, span.last);
    } else {
      days.back().open.push_back(span);
    }
  }
  return days;
}

/// Gives an activity the starts with which it lies in its part of each day.
class DayParts {
 public:
  DayParts(Project& project, const std::vector<Day>& days, const Side& first, const Side& second)
      : project_(project),
        days_(days),
        unit_(std::max<Tick>(1, first.unit)),
        overlap_((first.mean + unit_ - 1) / unit_ * unit_),
        share_(first.work / (first.work + second.work)) {}

  void keep_in_first_part(int activity) { keep(activity, true); }
  void keep_in_second_part(int activity) { keep(activity, false); }

 private:
  struct Key {
    int starts;
    Tick length;
    bool is_first;
    auto operator<=>(const Key&) const = default;
  };

  void keep(int activity, bool is_first) {
    Activity& one = project_.activities[activity];
    const auto [known, is_new] = sets_.try_emplace(Key{one.starts, one.length, is_first}, 0);
    if (is_new) {
      StartSet kept;
      for (const StartSpan& span : project_.start_sets[one.starts].spans) {
        const StartSpan part = is_first ? first_part(span, one.length) : second_part(span);
        if (part.first <= part.last) {
          kept.spans.push_back(part);
        }
      }
      known->second = static_cast<int>(project_.start_sets.size());
      project_.start_sets.push_back(std::move(kept));
    }
    one.starts = known->second;
  }

  /// The day that a span of starts begins in, if it is one that is divided.
  [[nodiscard]] const Day* divided_day(const StartSpan& span) const {
    const auto after =
        std::upper_bound(days_.begin(), days_.end(), span.first, [](Tick tick, const Day& day) {
          return tick < day.open.front().first;
        });
    const auto number = after - days_.begin() - 1;
    return number >= kWholeDays ? &days_[static_cast<std::size_t>(number)] : nullptr;
  }

  /// The open time that the first part takes: whole works fit into it.
  [[nodiscard]] Tick first_of(const Day& day) const {
    const double units = share_ * day.length() / unit_;
    return static_cast<Tick>(std::ceil(units - kOver)) * unit_;
  }
  [[nodiscard]] StartSpan first_part(const StartSpan& span, Tick length) const {
    const Day* day = divided_day(span);
    if (day == nullptr) {
      return span;
    }
    const Tick last = day->after(first_of(*day) + overlap_) - length;
    return {span.first, std::min(span.last, last / project_.grain * project_.grain)};
  }
  [[nodiscard]] StartSpan second_part(const StartSpan& span) const {
    const Day* day = divided_day(span);
    if (day == nullptr) {
      return span;
    }
    const Tick first = day->after(first_of(*day));
    return {std::max(span.first, first / project_.grain * project_.grain), span.last};
  }

  Project& project_;
  const std::vector<Day>& days_;
  Tick unit_;
  Tick overlap_;  ///< Of the parts: one work more may begin in the first.
  double share_;  ///< Of a day, that the first part takes.
  std::map<Key, int> sets_;
};

}  // namespace

std::optional<Project> with_divided_days(const Project& project,
                                         const LagNetwork& network,
                                         const Windows& windows) {
  std::optional<Project> divided;
  for (const Exclusion& exclusion : project.exclusions) {
    const Side one = side_of(project, windows, exclusion.one_side);
    const Side other = side_of(project, windows, exclusion.other_side);
    if (std::min(one.activities.size(), other.activities.size()) < kFewest ||
        one.lasts == other.lasts || one.work + other.work <= 0.0) {
      continue;
    }
    const Side& first = one.lasts < other.lasts ? one : other;
    const Side& second = one.lasts < other.lasts ? other : one;
    const std::vector<Day> days = days_of(project, network, first, second);
    if (days.size() <= kFewestDays) {
      continue;  // what lasts, lasts over the breaks
    }
    if (!divided) {
      divided = project;
    }
    DayParts parts(*divided, days, first, second);
    for (const int activity : first.activities) {
      parts.keep_in_first_part(activity);
    }
    for (const int activity : second.activities) {
      parts.keep_in_second_part(activity);
    }
  }
  return divided;
}

}  // namespace coatwright
