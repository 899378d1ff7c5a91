#pragma once

#include <string>
#include <utility>
#include <vector>

namespace coatwright {

/// One line of a chart; a gap where it has no value ends one run and begins another.
struct ChartLine {
  std::string title;
  std::vector<std::vector<std::pair<double, double>>> runs;  ///< x, y; y above 0.
};

/// What stands around the lines.
struct ChartFrame {
  std::string title;
  std::string x_title;
  std::string y_title;
  double x_low;
  double x_high;
  double x_step;                                        ///< Between ticks.
  std::vector<std::pair<double, std::string>> y_ticks;  ///< Rising; their ends are the axis's.
};

/// Draws lines over a logarithmic y axis as SVG 1.1, for screen and paper: each line has a colour,
/// a dash pattern and its title at its end, so that it is known without colour too.
[[nodiscard]] std::string line_chart(const ChartFrame& frame, const std::vector<ChartLine>& lines);

}  // namespace coatwright
