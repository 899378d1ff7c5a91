#include "air/logger_moments.h"

#include <algorithm>

#include <fmt/format.h>

namespace coatwright {
namespace {

using std::chrono::seconds;

/// Asks the zone once for each day on which the clocks are not changed, since a file may have a
/// million rows.
class DayCache {
 public:
  explicit DayCache(const Zone& zone) : zone_(zone) {}

  /// @return the moment where there is one alone; spares the vector on ordinary days.
  [[nodiscard]] std::optional<Time> plain_moment(LocalTime local) {
    const auto day = date::floor<date::days>(local);
    if (!known_ || day != day_) {
      load(day);
    }
    return offset_ ? std::optional(as_time(local, *offset_)) : std::nullopt;
  }

 private:
  static Time as_time(LocalTime local, seconds offset) {
    return Time(local.time_since_epoch() - offset);
  }

  void load(date::local_days day) {
    const auto start = zone_.moments_of(day);
    const auto end = zone_.moments_of(day + date::days(1));
    known_ = true;
    day_ = day;
    offset_.reset();
    if (start.size() == 1 && end.size() == 1 && end[0] - start[0] == date::days(1)) {
      offset_ = zone_.offset_at(start[0]);
    }
  }

  const Zone& zone_;
  bool known_ = false;
  date::local_days day_;
  std::optional<seconds> offset_;
};

/// Neighbouring rows that all lie in one repeated hour.
struct Stretch {
  std::size_t begin;
  std::size_t end;   // one past the last
  seconds repeated;  // how much later the second pass is
};

void add_to(std::vector<Stretch>& stretches,
            std::size_t row,
            const std::vector<LocalStamp>& stamps,
            seconds repeated) {
  const bool goes_on = !stretches.empty() && stretches.back().end == row &&
                       std::chrono::abs(stamps[row].local - stamps[row - 1].local) < repeated;
  if (goes_on) {
    stretches.back().end = row + 1;
  } else {
    stretches.push_back({row, row + 1, repeated});
  }
}

tl::unexpected<Error> undecided(const LocalStamp& stamp, const Zone& zone) {
  const auto both = zone.moments_of(stamp.local);
  return fail(
      ErrorCode::kInputFile,
      fmt::format("line {}: {} exists twice in {}, because the clocks go back that night, and "
                  "the order of the rows does not tell which is meant: {} or {}? give the "
                  "times with their offset, or say --utc if they are UTC",
                  stamp.line,
                  show_utc(Time(stamp.local.time_since_epoch())).substr(0, 16),
                  zone.name(),
                  show_rfc3339(both[0], zone),
                  show_rfc3339(both[1], zone)));
}

/// @return the index from which on the rows show the second pass, or nothing when they do not tell.
std::optional<std::size_t> second_pass(const std::vector<LocalStamp>& stamps,
                                       const Stretch& stretch) {
  std::optional<std::size_t> step_back;
  for (std::size_t i = stretch.begin + 1; i < stretch.end; ++i) {
    if (stamps[i].local < stamps[i - 1].local) {
      if (step_back) {
        return std::nullopt;  // the rows are in no order
      }
      step_back = i;
    }
  }
  if (step_back) {
    return step_back;
  }
  // One reading an hour shows the same clock time twice.
  const std::size_t first = stretch.begin;
  const bool pair = stretch.end - first == 2 && stamps[first].local == stamps[first + 1].local;
  const bool apart_before =
      first == 0 || stamps[first].local - stamps[first - 1].local >= stretch.repeated;
  const bool apart_after =
      stretch.end == stamps.size() ||
      stamps[stretch.end].local - stamps[stretch.end - 1].local >= stretch.repeated;
  return pair && apart_before && apart_after ? std::optional(first + 1) : std::nullopt;
}

/// Rows around a stretch must be earlier and later than it, or the order of the rows tells nothing.
bool in_order_around(const std::vector<std::optional<Time>>& moments, const Stretch& stretch) {
  const auto& before = stretch.begin > 0 ? moments[stretch.begin - 1] : std::nullopt;
  const auto& after = stretch.end < moments.size() ? moments[stretch.end] : std::nullopt;
  return (!before || *before <= *moments[stretch.begin]) &&
         (!after || *after >= *moments[stretch.end - 1]);
}

/// Gives each row its moment, in a repeated hour the first; notes the stretches of such hours.
std::vector<std::optional<Time>> first_moments(const std::vector<LocalStamp>& stamps,
                                               const Zone& zone,
                                               std::vector<Stretch>& stretches) {
  std::vector<std::optional<Time>> moments(stamps.size());
  DayCache cache(zone);
  for (std::size_t i = 0; i < stamps.size(); ++i) {
    const LocalStamp& stamp = stamps[i];
    moments[i] = stamp.offset ? Time(stamp.local.time_since_epoch() - *stamp.offset)
                              : cache.plain_moment(stamp.local);
    if (moments[i]) {
      continue;
    }
    const auto all = zone.moments_of(stamp.local);
    if (all.empty()) {
      continue;
    }
    moments[i] = all[0];
    if (all.size() == 2) {
      add_to(stretches, i, stamps, all[1] - all[0]);
    }
  }
  return moments;
}

}  // namespace

Result<std::vector<std::optional<Time>>> moments_of_rows(const std::vector<LocalStamp>& stamps,
                                                         const Zone& zone) {
  std::vector<Stretch> stretches;
  auto moments = first_moments(stamps, zone, stretches);
  for (const Stretch& stretch : stretches) {
    const auto second = second_pass(stamps, stretch);
    if (!second) {
      return undecided(stamps[stretch.begin], zone);
    }
    for (std::size_t i = *second; i < stretch.end; ++i) {
      *moments[i] += stretch.repeated;
    }
    if (!in_order_around(moments, stretch)) {
      return undecided(stamps[stretch.begin], zone);
    }
  }
  return moments;
}

}  // namespace coatwright
