#include "growth_chart.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace coatwright {
namespace {

// Of the picture and, inside of it, the field of the axes, in SVG units.
constexpr double kWidth = 720.0;
constexpr double kHeight = 460.0;
constexpr double kLeft = 80.0;
constexpr double kRight = 500.0;
constexpr double kTop = 50.0;
constexpr double kBottom = 390.0;
constexpr double kLineOfText = 15.0;

/// An axis by powers of ten, from one power to another.
struct Axis {
  int first = 0;
  int last = 0;
  double begin = 0.0;
  double end = 0.0;

  [[nodiscard]] double place(double value) const {
    return begin + (std::log10(value) - first) / (last - first) * (end - begin);
  }
};

Axis axis_over(const std::vector<GrowthLine>& lines, bool seconds, double begin, double end) {
  double least = 1e300;
  double most = 1e-300;
  for (const GrowthLine& line : lines) {
    for (const auto& [steps, time] : line.points) {
      least = std::min(least, seconds ? time : steps);
      most = std::max(most, seconds ? time : steps);
    }
  }
  const int first = static_cast<int>(std::floor(std::log10(least) + 1e-9));
  const int last = static_cast<int>(std::ceil(std::log10(most) - 1e-9));
  return {first, std::max(last, first + 1), begin, end};
}

std::string text_at(double x, double y, const std::string& anchor, const std::string& words) {
  return fmt::format(
      "<text x=\"{:.1f}\" y=\"{:.1f}\" text-anchor=\"{}\">{}</text>\n", x, y, anchor, words);
}

std::string rule(double x1, double y1, double x2, double y2, const char* colour) {
  return fmt::format(
      "<line x1=\"{:.1f}\" y1=\"{:.1f}\" x2=\"{:.1f}\" y2=\"{:.1f}\" stroke=\"{}\"/>\n",
      x1,
      y1,
      x2,
      y2,
      colour);
}

/// 0.001, 1, 1000.
std::string power_text(int power) {
  return power < 0 ? fmt::format("{:.{}f}", std::pow(10.0, power), -power)
                   : fmt::format("{:.0f}", std::pow(10.0, power));
}

std::string drawn_axes(const Axis& steps, const Axis& seconds) {
  std::string svg;
  for (int power = steps.first; power <= steps.last; ++power) {
    const double x = steps.place(std::pow(10.0, power));
    svg +=
        rule(x, kTop, x, kBottom, "#bbb") + text_at(x, kBottom + 20, "middle", power_text(power));
  }
  for (int power = seconds.first; power <= seconds.last; ++power) {
    const double y = seconds.place(std::pow(10.0, power));
    svg += rule(kLeft, y, kRight, y, "#bbb") + text_at(kLeft - 8, y + 4, "end", power_text(power));
  }
  svg +=
      rule(kLeft, kBottom, kRight, kBottom, "black") + rule(kLeft, kTop, kLeft, kBottom, "black");
  svg += text_at((kLeft + kRight) / 2, kBottom + 45, "middle", "steps to be planned (count)");
  const double middle = (kTop + kBottom) / 2;
  svg += fmt::format(
      "<text x=\"20\" y=\"{0:.1f}\" text-anchor=\"middle\" transform=\"rotate(-90 20 {0:.1f})\">"
      "time (seconds)</text>\n",
      middle);
  return svg;
}

std::string drawn_line(const GrowthLine& line, const Axis& steps, const Axis& seconds) {
  std::string places;
  std::string dots;
  for (const auto& [count, time] : line.points) {
    const double x = steps.place(count);
    const double y = seconds.place(time);
    places += fmt::format("{:.1f},{:.1f} ", x, y);
    dots += fmt::format("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"2.5\"/>\n", x, y);
  }
  return fmt::format(
             "<polyline points=\"{}\" fill=\"none\" stroke=\"black\" stroke-width=\"1.5\" "
             "stroke-dasharray=\"{}\"/>\n",
             places,
             line.dashes.empty() ? "none" : line.dashes) +
         dots;
}

/// The names at the ends of the lines, moved apart where they would lie on one another.
std::string drawn_names(const std::vector<GrowthLine>& lines, const Axis& seconds) {
  std::vector<std::pair<double, std::string>> names;
  for (const GrowthLine& line : lines) {
    if (!line.points.empty()) {
      names.emplace_back(seconds.place(line.points.back().second), line.name);
    }
  }
  std::sort(names.begin(), names.end());
  std::string svg;
  double lowest = 0.0;
  for (const auto& [y, name] : names) {
    const double free = std::max(y + 4, lowest);
    svg += text_at(kRight + 8, free, "start", name);
    lowest = free + kLineOfText;
  }
  return svg;
}

}  // namespace

std::string growth_chart(const std::string& title, const std::vector<GrowthLine>& lines) {
  const Axis steps = axis_over(lines, false, kLeft, kRight);
  const Axis seconds = axis_over(lines, true, kBottom, kTop);
  std::string svg = fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0:.0f} {1:.0f}\" width=\"{0:.0f}\" "
      "height=\"{1:.0f}\" font-family=\"sans-serif\" font-size=\"12\">\n"
      "<title>{2}</title>\n<rect width=\"100%\" height=\"100%\" fill=\"white\"/>\n",
      kWidth,
      kHeight,
      title);
  svg += text_at(kLeft, kTop - 20, "start", title) + drawn_axes(steps, seconds);
  for (const GrowthLine& line : lines) {
    svg += drawn_line(line, steps, seconds);
  }
  return svg + drawn_names(lines, seconds) + "</svg>\n";
}

}  // namespace coatwright
