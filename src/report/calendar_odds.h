#pragma once

#include <string>

#include "report/plan_words.h"

namespace coatwright {

/// The simulated chances; empty where they were not asked for.
[[nodiscard]] std::string calendar_odds(const PlanView& view);

}  // namespace coatwright
