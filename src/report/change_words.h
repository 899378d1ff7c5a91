#pragma once

#include <string>

#include "report/plan_words.h"

namespace coatwright {

struct Change;
struct Way;

/// "Stay 2 h longer each working day".
[[nodiscard]] std::string order_of(const Change& change, const PlanView& view);

/// "2 h longer each working day".
[[nodiscard]] std::string change_words(const Change& change, const PlanView& view);

/// What the change takes beside itself: "8 h of presence more until the end", or "".
[[nodiscard]] std::string price_of(const Change& change, const Way& way, const PlanView& view);

}  // namespace coatwright
