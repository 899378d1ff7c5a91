#pragma once

#include "scheduling/project.h"

namespace coatwright {

/// How large an invented shop and its work are.
struct ShopSize {
  int pieces = 4;
  int least_steps = 6;  ///< Of a piece; from 6 on.
  int most_steps = 14;
  int people = 2;
  int spray_places = 1;
  int days = 14;      ///< Until the horizon; the first is a Monday.
  int first_due = 3;  ///< Days until the first and the last piece may be due.
  int last_due = 9;
  int last_arrival = 0;      ///< Days until the last piece may come in; the days until it is due
                             ///< count from there. 0: all are there from the start.
  Tick grain = 15;           ///< Minutes, a divisor of 15.
  bool sands_apart = false;  ///< Bare wood is sanded in a room of its own, away from wet films.
  unsigned seed = 1;
};

/// A shop's work as a project in minutes from Monday 0:00. Each piece is sanded, stained or sealed,
/// and coated several times with abrading between; films dry faster in the afternoon than at night;
/// some coats have a recoat window that closes; coats need a person and the spray place, which is
/// aired after each, and then a rack; sanding needs a bench, and keeps clear of wet films; one
/// person is away on the first Wednesday; work lies in the shop's hours. All figures are
/// invented. The same size and seed give the same project on every machine.
[[nodiscard]] Project invented_shop(const ShopSize& size);

/// A week of a small shop, 1-3 people and 2-6 pieces of 6-14 steps on a grain of 15 minutes.
[[nodiscard]] Project shop_week(unsigned seed);

/// Two busy weeks: 12 pieces of 10 steps, two people, a grain of 5 minutes.
[[nodiscard]] ShopSize busy_fortnight(unsigned seed);

}  // namespace coatwright
