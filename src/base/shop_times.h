#pragma once

#include <vector>

#include "base/special_days.h"
#include "base/time.h"
#include "base/week_hours.h"
#include "base/week_people.h"

namespace coatwright {

/// Hours in which the same number of people is at the shop.
struct PeopledHours {
  Interval open;
  int people = 1;
  bool operator==(const PeopledHours&) const = default;
};

/// When people are at the shop to work, and how many: the usual week, and days that are not usual.
struct ShopTimes {
  WeekHours hours;
  WeekPeople people;
  SpecialDays special;

  /// @return the hours between two moments, in order, cut to them, none without people. Clock times
  /// are those of the zone: a day on which the clocks change is an hour shorter or longer where the
  /// shop is open at night. Touching hours with the same people are joined.
  [[nodiscard]] std::vector<PeopledHours> staffed(Time from, Time to, const Zone& zone) const;
  /// The same, however many people are there; touching ones are joined.
  [[nodiscard]] std::vector<Interval> open(Time from, Time to, const Zone& zone) const;
};

}  // namespace coatwright
