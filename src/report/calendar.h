#pragma once

#include <string>

#include "base/units.h"
#include "base/zone.h"
#include "plan/plan.h"

namespace coatwright {

/// The plan as a page for the shop's wall: head, day by day, what it needs and what holds it up.
/// @return plain text, at most 80 columns.
[[nodiscard]] std::string show_calendar(const Plan& plan, const Zone& zone, UnitSystem units);

}  // namespace coatwright
