#include "plan/opening_hours.h"

#include <algorithm>

#include <fmt/format.h>

namespace coatwright {
Time OpeningHours::rounded_up(Time time) const {
  const auto over = time.time_since_epoch() % grain_;
  return over == std::chrono::seconds(0) ? time : time + (grain_ - over);
}

std::optional<Time> OpeningHours::first_fit(Time ready, std::chrono::seconds length) const {
  auto opening = std::partition_point(
      intervals_.begin(), intervals_.end(), [&](const Interval& one) { return one.end <= ready; });
  for (; opening != intervals_.end(); ++opening) {
    const Time start = rounded_up(std::max(ready, opening->start));
    if (start + length <= opening->end) {
      return start;
    }
  }
  return std::nullopt;
}

std::string OpeningHours::why_none(std::chrono::seconds length, std::string_view what) const {
  const bool ever = std::any_of(intervals_.begin(), intervals_.end(), [&](const Interval& one) {
    return rounded_up(one.start) + length <= one.end;
  });
  if (!ever) {
    return fmt::format("'{}' takes {} min in one go, and no opening of the shop is that long",
                       what,
                       length.count() / 60);
  }
  return fmt::format("no shop hours are left for '{}' before the plan is given up", what);
}

}  // namespace coatwright
