#pragma once

#include <string>

#include "report/plan_words.h"

namespace coatwright {

/// What is planned, whether it fits, and how sure that is.
[[nodiscard]] std::string calendar_head(const PlanView& view);

}  // namespace coatwright
