#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/clock_text.h"
#include "base/result.h"

namespace coatwright {

/// How many people are at the shop while it is open, week after week.
class WeekPeople {
 public:
  /// From one minute of a day up to another, so many.
  struct Stretch {
    ClockSpan span;
    int people = 1;
    bool operator==(const Stretch&) const = default;
  };

  /// One person, always.
  WeekPeople() : WeekPeople(1) {}
  explicit WeekPeople(int always) : usual_(always) {}

  /// Reads "3", or "3; Fri 2; Sat 9:00-13:00 1": the usual number, then other numbers for days or
  /// for hours of days, of which the later overrule the earlier. The usual number is 1 .. 99; the
  /// others may be 0, when nobody is there. Errors: kUsage naming the part that cannot be read.
  [[nodiscard]] static Result<WeekPeople> parse(std::string_view text);

  [[nodiscard]] int usual() const { return usual_; }
  /// The text form that parse() reads back: as it was typed, with full clock times.
  [[nodiscard]] std::string text() const;
  /// @return who is there on a day, from 0:00 to 24:00 without gaps; neighbours differ.
  [[nodiscard]] std::vector<Stretch> on(date::weekday day) const;

  bool operator==(const WeekPeople&) const = default;

 private:
  /// One part after the usual number.
  struct Exception {
    std::vector<date::weekday> days;
    std::vector<ClockSpan> spans;  ///< None: all day.
    int people = 0;
    bool operator==(const Exception&) const = default;
  };
  static Result<Exception> parse_exception(std::string_view part);

  int usual_;
  std::vector<Exception> exceptions_;
};

}  // namespace coatwright
