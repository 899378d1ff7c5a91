#pragma once

#include <string>

#include "report/plan_words.h"

namespace coatwright {

/// The steps day by day, with the waits before them and the hours in which nobody is needed.
[[nodiscard]] std::string calendar_days(const PlanView& view);

}  // namespace coatwright
