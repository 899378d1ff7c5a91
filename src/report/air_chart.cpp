#include "report/air_chart.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace coatwright {
namespace {

constexpr int kLines = 9;
constexpr std::size_t kMarkEvery = 8;  // columns between the clock marks, which are 5 wide

double in_units(Temperature value, UnitSystem units) {
  return units == UnitSystem::kUs ? value.fahrenheit() : value.celsius();
}

/// The scale on the left: whole degrees a line, so that every line has a round label.
struct Scale {
  int lowest = 0;
  int step = 1;  ///< Degrees from one line to the next.

  [[nodiscard]] int line_of(double value) const {
    return static_cast<int>(std::lround((value - lowest) / step));
  }
};

Scale scale_for(const std::vector<AirAt>& points, UnitSystem units) {
  double lowest = in_units(points.front().state.dew_point, units);
  double highest = lowest;
  for (const AirAt& point : points) {
    lowest = std::min(lowest, in_units(point.state.dew_point, units));
    highest = std::max(highest, in_units(point.state.temperature, units));
  }
  Scale scale;
  const auto fits = [&] { return scale.lowest + scale.step * (kLines - 1) >= highest; };
  for (scale.step = 1;; ++scale.step) {
    scale.lowest = static_cast<int>(std::floor(lowest / scale.step)) * scale.step;
    if (fits()) {
      return scale;
    }
  }
}

/// @return the column of the last point that is not after now; nothing when now lies outside.
std::optional<std::size_t> column_of(const std::vector<AirAt>& points, Time now) {
  if (now < points.front().at || now > points.back().at) {
    return std::nullopt;
  }
  const auto after = std::upper_bound(
      points.begin(), points.end(), now, [](Time time, const AirAt& p) { return time < p.at; });
  return static_cast<std::size_t>(after - points.begin()) - 1;
}

std::string clock_line(const std::vector<AirAt>& points, const Zone& zone) {
  std::string line;
  for (std::size_t i = 0; i < points.size(); i += kMarkEvery) {
    line.resize(i, ' ');
    line += show_clock(points[i].at, zone);
  }
  return line;
}

}  // namespace

std::string air_chart(const std::vector<AirAt>& points,
                      Time now,
                      const Zone& zone,
                      UnitSystem units) {
  const Scale scale = scale_for(points, units);
  std::vector<std::string> lines(kLines, std::string(points.size(), ' '));
  if (const auto column = column_of(points, now)) {
    for (std::string& line : lines) {
      line[*column] = '|';
    }
  }
  for (std::size_t i = 0; i < points.size(); ++i) {
    const AirState& state = points[i].state;
    lines[static_cast<std::size_t>(scale.line_of(in_units(state.dew_point, units)))][i] = 'o';
    lines[static_cast<std::size_t>(scale.line_of(in_units(state.temperature, units)))][i] = '*';
  }
  const std::string_view unit = units == UnitSystem::kUs ? "F" : "C";
  std::string chart;
  for (int i = kLines - 1; i >= 0; --i) {
    std::string line = lines[static_cast<std::size_t>(i)];
    line.erase(line.find_last_not_of(' ') + 1);
    chart += fmt::format("{:>5} {} |{}\n", scale.lowest + i * scale.step, unit, line);
  }
  chart += fmt::format("        +{}\n", std::string(points.size(), '-'));
  chart += fmt::format("         {}\n", clock_line(points, zone));
  return chart;
}

}  // namespace coatwright
