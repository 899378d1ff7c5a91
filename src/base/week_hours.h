#pragma once

#include <chrono>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "base/zone.h"

namespace coatwright {

/// The hours in which people are at the shop to work, week after week.
class WeekHours {
 public:
  /// One opening: minutes after local midnight of a weekday, end after start, at most 24:00.
  struct Opening {
    date::weekday day;
    std::chrono::minutes start;
    std::chrono::minutes end;
    bool operator==(const Opening&) const = default;
  };

  /// Reads "Mon-Fri 8:00-17:00; Sat 9:00-13:00, 14:00-16:00"; day ranges may wrap (Fri-Mon).
  /// Errors: kUsage naming the part that cannot be read, or openings of one day that overlap.
  [[nodiscard]] static Result<WeekHours> parse(std::string_view text);

  [[nodiscard]] const std::vector<Opening>& openings() const { return openings_; }
  /// The text form that parse() reads back, one part per day.
  [[nodiscard]] std::string text() const;
  /// @return the openings between two moments, in order, cut to them; touching ones are joined.
  [[nodiscard]] std::vector<Interval> between(Time from, Time to, const Zone& zone) const;

 private:
  std::vector<Opening> openings_;
};

}  // namespace coatwright
