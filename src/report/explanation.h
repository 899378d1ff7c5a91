#pragma once

#include <string>

#include "base/units.h"
#include "base/zone.h"
#include "plan/plan.h"

namespace coatwright {

/// Why every wait of the plan is as long as it is, with the figures and their sources: the waits
/// one by one, the air, the rates, the working times.
/// @return plain text, at most 80 columns.
[[nodiscard]] std::string show_explanation(const Plan& plan, const Zone& zone, UnitSystem units);

}  // namespace coatwright
