#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/units.h"
#include "base/zone.h"
#include "report/sheet.h"

namespace coatwright {

/// A step of a job ticket: what is to be done, and what it takes.
struct TicketStep {
  std::string what;
  std::optional<Time> at;  ///< By the last plan; none: it was not planned.
  std::string product;     ///< Title; empty where none.
  std::string grit;
  std::string note;  ///< What the schedule says with it.
};

/// The paper that goes with a piece through the shop.
struct JobTicket {
  std::string piece;
  std::string species;
  std::string schedule;
  std::string area;
  std::optional<Time> due;
  std::optional<Time> planned_at;  ///< When the plan was made; none: from the schedule alone.
  Time made_at;
  std::vector<TicketStep> steps;      ///< In order.
  std::vector<std::string> cautions;  ///< Each once.
};

/// The ticket as a landscape sheet: what the piece is, what must be minded, and a row for each step
/// with fields to fill in by hand.
[[nodiscard]] Sheet ticket_sheet(const JobTicket& ticket, const Zone& zone, UnitSystem units);

}  // namespace coatwright
