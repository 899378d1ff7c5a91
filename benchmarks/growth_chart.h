#pragma once

#include <string>
#include <vector>

namespace coatwright {

/// Points of one line, by the number of steps.
struct GrowthLine {
  std::string name;
  std::string dashes;  ///< Of SVG's stroke-dasharray; empty: drawn through.
  std::vector<std::pair<double, double>> points;  ///< Steps and seconds, both above 0.
};

/// Draws seconds over steps, both axes by powers of ten, as plain SVG in black on white: lines are
/// told apart by their dashes and their names at their ends.
[[nodiscard]] std::string growth_chart(const std::string& title,
                                       const std::vector<GrowthLine>& lines);

}  // namespace coatwright
