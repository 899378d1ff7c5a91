#pragma once

#include "report/plan_words.h"
#include "report/sheet.h"

namespace coatwright {

/// The plan's calendar as a landscape sheet: what fits, charts hour by hour, the steps day by day
/// with a box to tick, when it may be used, and what to have at hand.
[[nodiscard]] Sheet plan_sheet(const PlanView& view);

}  // namespace coatwright
