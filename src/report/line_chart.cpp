#include "report/line_chart.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

namespace coatwright {
namespace {

constexpr double kWidth = 860;
constexpr double kHeight = 520;
constexpr double kLeft = 80;
constexpr double kRight = 610;  // the titles of the lines stand beyond it
constexpr double kTop = 60;
constexpr double kBottom = 460;
constexpr double kLeastGap = 17;  // between two titles

struct Pen {
  const char* colour;
  const char* dashes;
};
constexpr std::array<Pen, 6> kPens = {{{"#1b4f72", "none"},
                                       {"#a04000", "8 3"},
                                       {"#186a3b", "3 3"},
                                       {"#6c3483", "10 3 2 3"},
                                       {"#7d6608", "1 3"},
                                       {"#566573", "14 4"}}};

std::string escaped(const std::string& text) {
  std::string safe;
  for (const char c : text) {
    safe += c == '&' ? "&amp;" : c == '<' ? "&lt;" : c == '>' ? "&gt;" : std::string(1, c);
  }
  return safe;
}

std::string words(double x, double y, const std::string& anchor, const std::string& text) {
  return fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\" text-anchor=\"{}\">{}</text>\n",
                     x,
                     y,
                     anchor,
                     escaped(text));
}

/// From values to places on the page.
class Scale {
 public:
  explicit Scale(const ChartFrame& frame) : frame_(frame) {}

  [[nodiscard]] double x(double value) const {
    return kLeft + (value - frame_.x_low) / (frame_.x_high - frame_.x_low) * (kRight - kLeft);
  }
  [[nodiscard]] double y(double value) const {
    const double low = std::log(frame_.y_ticks.front().first);
    const double high = std::log(frame_.y_ticks.back().first);
    return kBottom - (std::log(value) - low) / (high - low) * (kBottom - kTop);
  }

 private:
  const ChartFrame& frame_;
};

std::string axes(const ChartFrame& frame, const Scale& scale) {
  std::string text;
  const auto line = [&](double x1, double y1, double x2, double y2) {
    text += fmt::format(
        "<line x1=\"{:.1f}\" y1=\"{:.1f}\" x2=\"{:.1f}\" y2=\"{:.1f}\" stroke=\"#cccccc\"/>\n",
        x1,
        y1,
        x2,
        y2);
  };
  for (double value = frame.x_low; value <= frame.x_high + 1e-9; value += frame.x_step) {
    line(scale.x(value), kTop, scale.x(value), kBottom);
    text += words(scale.x(value), kBottom + 20, "middle", fmt::format("{:.0f}", value));
  }
  for (const auto& [value, title] : frame.y_ticks) {
    line(kLeft, scale.y(value), kRight, scale.y(value));
    text += words(kLeft - 8, scale.y(value) + 4, "end", title);
  }
  return text + words((kLeft + kRight) / 2, kBottom + 45, "middle", frame.x_title) +
         words(kLeft - 60, kTop - 14, "start", frame.y_title);
}

std::string path_of(const ChartLine& line, const Pen& pen, const Scale& scale) {
  std::string text;
  for (const auto& run : line.runs) {
    std::string points;
    for (const auto& [x, y] : run) {
      points += fmt::format("{}{:.1f},{:.1f}", points.empty() ? "" : " ", scale.x(x), scale.y(y));
    }
    text += fmt::format(
        "<polyline points=\"{}\" fill=\"none\" stroke=\"{}\" stroke-width=\"2.5\" "
        "stroke-dasharray=\"{}\"/>\n",
        points,
        pen.colour,
        pen.dashes);
  }
  return text;
}

/// A title beside the end of each line, moved down where two would touch.
std::string titles(const std::vector<ChartLine>& lines, const Scale& scale) {
  struct Label {
    std::size_t line;
    double at;
    double y;
  };
  std::vector<Label> labels;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (!lines[i].runs.empty()) {
      const double end = scale.y(lines[i].runs.back().back().second);
      labels.push_back({i, end, end});
    }
  }
  std::stable_sort(
      labels.begin(), labels.end(), [](const Label& a, const Label& b) { return a.at < b.at; });
  std::string text;
  double lowest = 0;
  for (Label& label : labels) {
    label.y = std::max(label.at, lowest + kLeastGap);
    lowest = label.y;
    const double end = scale.x(lines[label.line].runs.back().back().first);
    text += fmt::format(
        "<polyline points=\"{:.1f},{:.1f} {:.1f},{:.1f}\" fill=\"none\" stroke=\"{}\"/>\n",
        end,
        label.at,
        kRight + 14,
        label.y,
        kPens[label.line % kPens.size()].colour);
    text += words(kRight + 18, label.y + 4, "start", lines[label.line].title);
  }
  return text;
}

}  // namespace

std::string line_chart(const ChartFrame& frame, const std::vector<ChartLine>& lines) {
  const Scale scale(frame);
  std::string text = fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"{0:.0f}\" "
      "height=\"{1:.0f}\" viewBox=\"0 0 {0:.0f} {1:.0f}\" font-family=\"sans-serif\" "
      "font-size=\"13\">\n<rect width=\"100%\" height=\"100%\" fill=\"#ffffff\"/>\n",
      kWidth,
      kHeight);
  text += fmt::format(
      "<text x=\"{:.1f}\" y=\"22\" font-size=\"16\">{}</text>\n", kLeft - 60, escaped(frame.title));
  text += axes(frame, scale);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    text += path_of(lines[i], kPens[i % kPens.size()], scale);
  }
  return text + titles(lines, scale) + "</svg>\n";
}

}  // namespace coatwright
