#pragma once

#include <string>
#include <vector>

#include "report/plan_words.h"

namespace coatwright {

/// What happens to one part, for a row of a chart.
struct PartRow {
  std::string label;
  std::vector<const PlanStep*> steps;  ///< By their start.
  Time begun;
  Time ended;
};

/// The parts of a plan in the order of its pieces, those of one piece beneath each other.
[[nodiscard]] std::vector<PartRow> part_rows(const Plan& plan);

}  // namespace coatwright
