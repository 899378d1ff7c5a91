#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/time.h"

namespace coatwright {

/// The shop's opening intervals, asked for the first place where work fits.
class OpeningHours {
 public:
  /// @param intervals in order, not touching.
  explicit OpeningHours(std::vector<Interval> intervals) : intervals_(std::move(intervals)) {}

  /// @return the first start, not before `ready` and on a whole five minutes, at which work of this
  /// length lies inside one opening; nothing when there is none.
  [[nodiscard]] std::optional<Time> first_fit(Time ready, std::chrono::seconds length) const;
  /// Why first_fit() found nothing, in a sentence. @param what the work, as people call it.
  [[nodiscard]] std::string why_none(std::chrono::seconds length, std::string_view what) const;

 private:
  std::vector<Interval> intervals_;
};

/// Rounded up to a whole five minutes, the grain of a wall calendar.
[[nodiscard]] Time rounded_up(Time time);

}  // namespace coatwright
