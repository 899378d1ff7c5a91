#pragma once

#include <string>

#include "report/plan_words.h"

namespace coatwright {

/// When the piece may be used, what is needed, warnings, what holds the plan up, and the last word.
[[nodiscard]] std::string calendar_foot(const PlanView& view);

}  // namespace coatwright
