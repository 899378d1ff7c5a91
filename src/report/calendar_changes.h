#pragma once

#include <string>

#include "report/plan_words.h"

namespace coatwright {

/// What the log has that a maker should know before going on; empty where it is all as planned.
[[nodiscard]] std::string calendar_log_warnings(const PlanView& view);

/// What moved since the plan before; empty where there was none.
[[nodiscard]] std::string calendar_changes(const PlanView& view);

/// Whether a warning is about the log, and therefore stands at the head.
[[nodiscard]] bool is_of_log(const PlanWarning& warning);

}  // namespace coatwright
