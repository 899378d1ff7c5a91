#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/time.h"

namespace coatwright {

/// A wall calendar's grain.
inline constexpr std::chrono::seconds kCalendarGrain = std::chrono::minutes(5);

/// The shop's opening intervals, asked for the first place where work fits.
class OpeningHours {
 public:
  /// @param intervals in order, not touching.
  /// @param grain work starts on whole multiples of it; a bound takes one second, because rounding
  /// up would make it late.
  explicit OpeningHours(std::vector<Interval> intervals,
                        std::chrono::seconds grain = kCalendarGrain)
      : intervals_(std::move(intervals)), grain_(grain) {}

  /// @return the first start, not before `ready` and on the grain, at which work of this
  /// length lies inside one opening; nothing when there is none.
  [[nodiscard]] std::optional<Time> first_fit(Time ready, std::chrono::seconds length) const;
  /// Why first_fit() found nothing, in a sentence. @param what the work, as people call it.
  [[nodiscard]] std::string why_none(std::chrono::seconds length, std::string_view what) const;

 private:
  [[nodiscard]] Time rounded_up(Time time) const;

  std::vector<Interval> intervals_;
  std::chrono::seconds grain_;
};

}  // namespace coatwright
