#pragma once

#include <vector>

#include "report/plan_words.h"
#include "report/sheet.h"

namespace coatwright {

/// A chart of the days on which somebody works, with its heading.
struct PlanChart {
  std::string heading;
  SheetChart chart;
};

/// Charts of as many days as stay legible on a line of landscape paper; days without any work
/// between two charts are left out. A row for each part: its coats, other work, drying, and when it
/// may be recoated.
[[nodiscard]] std::vector<PlanChart> plan_charts(const PlanView& view);

}  // namespace coatwright
