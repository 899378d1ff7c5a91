#pragma once

#include <string>

#include "base/zone.h"
#include "plan/plan.h"

namespace coatwright {

/// The plan as JSON of the format "coatwright/plan/1", as docs/plan-format.md documents it.
/// @return one object, indented, ended by a line feed; times are RFC 3339 with the zone's offset.
[[nodiscard]] std::string plan_as_json(const Plan& plan, const Zone& zone);

}  // namespace coatwright
