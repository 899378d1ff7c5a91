#pragma once

#include <string>

#include "report/plan_words.h"

namespace coatwright {

/// A row for each part and a column for each hour in which anybody is there, as many days beside
/// each other as a page is wide: where it is coated, worked on, dries or is in clamps.
/// @return plain text, at most 80 columns; empty where nothing is planned.
[[nodiscard]] std::string week_chart(const PlanView& view);

}  // namespace coatwright
