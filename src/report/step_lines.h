#pragma once

#include <string>
#include <vector>

#include "report/plan_words.h"

/// What stands with a step in a calendar, whatever the page is printed on.
namespace coatwright {

/// The air that was reckoned with for a coat: "Air 18.0 C, 55 %; surface 17.5 C, 8.0 C above dew
/// point."
[[nodiscard]] std::string air_line(const PlanView& view, const PlanStep& step);

/// " [flammable, spray mist]" after a coat's sentence; empty where it has no hazards.
[[nodiscard]] std::string hazards_mark(const PlanStep& step);

/// A sentence for each condition and each window that closes on a step that is still to be done,
/// and its chance where that is below the plan's confidence.
[[nodiscard]] std::vector<std::string> closing_lines(const PlanView& view, const PlanStep& step);

/// Whether a step is drying with work to come, which a calendar shows as hours in which nobody is
/// needed. @param last step of the plan.
[[nodiscard]] bool is_told_by_gaps(const PlanStep& step, const PlanStep& last);

}  // namespace coatwright
