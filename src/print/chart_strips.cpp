#include "print/chart_strips.h"

#include <algorithm>
#include <optional>

#include "print/fills.h"

namespace coatwright {
namespace {

constexpr double kLabelShare = 0.17;  // of the line's width
constexpr double kGap = 4.0;
constexpr double kBarHeight = 12.0;
constexpr double kRowHeight = 25.0;
constexpr double kPoints = 8.0;
constexpr double kChartSpace = 8.0;
constexpr double kSwatch = 26.0;
constexpr double kStrongTick = 1.2;
constexpr double kWeakTick = 0.3;

/// Where shares of the chart's width lie on the line.
struct Frame {
  double labels = 0;
  double width = 0;  // of the whole line

  [[nodiscard]] double at(double share) const {
    return labels + std::clamp(share, 0.0, 1.0) * (width - labels - 1.0);
  }
};

/// A text with its place from the left of the line.
struct PlacedText {
  Lettering text;
  double x = 0;
};

void draw_ticks(cairo_t* paper, const SheetChart& chart, const Frame& frame, PaperArea row) {
  for (const ChartTick& tick : chart.ticks) {
    const double x = row.x + frame.at(tick.at);
    draw_line(paper,
              x,
              row.y,
              x,
              row.y + row.height,
              tick.strong ? kStrongTick : kWeakTick,
              tick.strong ? 0.0 : 0.5);
  }
}

void draw_closed(cairo_t* paper, const SheetChart& chart, const Frame& frame, PaperArea row) {
  for (const ChartBar& bar : chart.closed) {
    const double from = row.x + frame.at(bar.from);
    draw_shade(paper, {from, row.y, row.x + frame.at(bar.to) - from, row.height});
  }
}

/// The days' names, each as wide as its day, so that they do not run into each other.
std::vector<PlacedText> day_names(const SheetChart& chart, const Frame& frame, cairo_t* paper) {
  std::vector<PlacedText> names;
  for (std::size_t i = 0; i < chart.ticks.size(); ++i) {
    const ChartTick& tick = chart.ticks[i];
    if (!tick.strong || tick.label.empty()) {
      continue;
    }
    double end = 1.0;
    for (std::size_t j = i + 1; j < chart.ticks.size() && end == 1.0; ++j) {
      end = chart.ticks[j].strong ? chart.ticks[j].at : end;
    }
    const double room = frame.at(end) - frame.at(tick.at) - 2 * kGap;
    names.push_back({Lettering(paper, tick.label, std::max(room, kPoints), {kPoints, true}),
                     frame.at(tick.at) + kGap});
  }
  return names;
}

/// The hours, centred, but for those that would touch the one before.
std::vector<PlacedText> hour_names(const SheetChart& chart, const Frame& frame, cairo_t* paper) {
  std::vector<PlacedText> names;
  double free_from = 0;
  for (const ChartTick& tick : chart.ticks) {
    if (tick.strong || tick.label.empty()) {
      continue;
    }
    const Lettering text(paper, tick.label, -1, {kPoints - 1, false});
    const double x = frame.at(tick.at) - text.width() / 2;
    if (x >= free_from && x + text.width() <= frame.width) {
      names.push_back({text, x});
      free_from = x + text.width() + 3.0;
    }
  }
  return names;
}

double highest(const std::vector<PlacedText>& texts) {
  double height = 0;
  for (const PlacedText& one : texts) {
    height = std::max(height, one.text.height());
  }
  return height;
}

Strip axis(const SheetChart& chart, const Frame& frame, cairo_t* measure) {
  const auto days = day_names(chart, frame, measure);
  const auto hours = hour_names(chart, frame, measure);
  Strip strip;
  const double days_height = highest(days);
  strip.height = days_height + highest(hours) + 5.0;
  strip.space = kChartSpace;
  strip.draw = [=, height = strip.height](cairo_t* paper, double x, double y) {
    for (const ChartTick& tick : chart.ticks) {
      const double at = x + frame.at(tick.at);
      draw_line(paper,
                at,
                tick.strong ? y : y + height - 3.0,
                at,
                y + height,
                tick.strong ? kStrongTick : kWeakTick);
    }
    for (const PlacedText& day : days) {
      day.text.draw(paper, x + day.x, y);
    }
    for (const PlacedText& hour : hours) {
      hour.text.draw(paper, x + hour.x, y + days_height + 1.0);
    }
    draw_line(paper, x, y + height, x + frame.width, y + height, 0.6);
  };
  strip.with_next = true;
  return strip;
}

/// The labels above their bars, those of solid ones first; where two would touch, the later is left
/// out: the tables of the sheet tell it.
std::vector<PlacedText> bar_labels(const ChartRow& row, const Frame& frame, cairo_t* paper) {
  std::vector<PlacedText> labels;
  const auto put = [&](const ChartBar& bar) {
    const Lettering text(paper, bar.label, -1, {kPoints - 1.5, false});
    const double x = std::min(frame.at(bar.from), frame.width - text.width());
    const bool taken = std::any_of(labels.begin(), labels.end(), [&](const PlacedText& other) {
      return x < other.x + other.text.width() + 3.0 && other.x < x + text.width() + 3.0;
    });
    if (!bar.label.empty() && !taken) {
      labels.push_back({text, x});
    }
  };
  for (const bool solid : {true, false}) {
    for (const ChartBar& bar : row.bars) {
      if ((bar.fill == ChartFill::kSolid) == solid) {
        put(bar);
      }
    }
  }
  return labels;
}

void draw_bars(cairo_t* paper,
               const std::vector<ChartBar>& bars,
               const Frame& frame,
               PaperArea row) {
  constexpr double kLeast = 1.2;  // what is shorter is still to be seen
  const double top = row.y + row.height - kBarHeight - 2.0;
  for (const ChartBar& bar : bars) {
    const double from = row.x + frame.at(bar.from);
    const double width = std::max(kLeast, row.x + frame.at(bar.to) - from);
    draw_bar(paper, {from, top, width, kBarHeight}, bar.fill);
  }
}

Strip row_strip(const SheetChart& chart,
                const ChartRow& row,
                const Frame& frame,
                cairo_t* measure) {
  const Lettering label(measure, row.label, frame.labels - kGap, {kPoints, false});
  const auto labels = bar_labels(row, frame, measure);
  Strip strip;
  strip.height = std::max(kRowHeight, label.height() + 5.0);
  strip.draw = [=, height = strip.height](cairo_t* paper, double x, double y) {
    const PaperArea area{x, y, frame.width, height};
    draw_closed(paper, chart, frame, area);
    draw_ticks(paper, chart, frame, area);
    draw_bars(paper, row.bars, frame, area);
    label.draw(paper, x, y + (height - label.height()) / 2);
    for (const PlacedText& text : labels) {
      text.text.draw(paper, x + text.x, y + height - kBarHeight - 2.5 - text.text.height());
    }
    draw_line(paper, x, y + height, x + frame.width, y + height, 0.4);
  };
  strip.with_next = true;
  return strip;
}

/// A line of the legend: swatches and what they say.
struct LegendLine {
  std::vector<std::pair<ChartFill, PlacedText>> fills;
  std::vector<PlacedText> shades;
  double height = kBarHeight;
};

/// Puts the legend's entries beside each other, as many as the line is wide.
class LegendSetter {
 public:
  LegendSetter(cairo_t* paper, double width) : paper_(paper), width_(width) {}

  void add(const std::string& words, std::optional<ChartFill> fill) {
    const double most = width_ - kSwatch - kGap;
    const Lettering free(paper_, words, -1, {kPoints, false});
    const Lettering text =
        free.width() > most ? Lettering(paper_, words, most, {kPoints, false}) : free;
    const double needed = kSwatch + kGap + text.width();
    if (lines_.empty() || x_ + needed > width_) {
      lines_.emplace_back();
      x_ = 0;
    }
    if (fill) {
      lines_.back().fills.emplace_back(*fill, PlacedText{text, x_});
    } else {
      lines_.back().shades.push_back({text, x_});
    }
    lines_.back().height = std::max(lines_.back().height, text.height());
    x_ += needed + 14.0;
  }

  [[nodiscard]] const std::vector<LegendLine>& lines() const { return lines_; }

 private:
  cairo_t* paper_;
  double width_;
  double x_ = 0;
  std::vector<LegendLine> lines_;
};

void draw_words(cairo_t* paper, const PlacedText& words, double x, double y) {
  const double down = std::max(0.0, (kBarHeight - words.text.height()) / 2);
  words.text.draw(paper, x + words.x + kSwatch + kGap, y + down);
}

Strip legend_strip(const LegendLine& line) {
  Strip strip;
  strip.height = line.height;
  strip.space = 5.0;
  strip.draw = [line](cairo_t* paper, double x, double y) {
    for (const auto& [fill, words] : line.fills) {
      draw_bar(paper, {x + words.x, y, kSwatch, kBarHeight}, fill);
      draw_words(paper, words, x, y);
    }
    for (const PlacedText& words : line.shades) {
      draw_shade(paper, {x + words.x, y, kSwatch, kBarHeight});
      draw_words(paper, words, x, y);
    }
  };
  strip.with_next = true;
  return strip;
}

std::vector<Strip> legend(const SheetChart& chart, const Column& column) {
  LegendSetter setter(column.paper, column.width);
  for (const auto& [fill, words] : chart.legend) {
    setter.add(words, fill);
  }
  if (!chart.closed_label.empty()) {
    setter.add(chart.closed_label, std::nullopt);
  }
  std::vector<Strip> strips;
  for (const LegendLine& line : setter.lines()) {
    strips.push_back(legend_strip(line));
  }
  return strips;
}

}  // namespace

std::vector<Strip> strips_of(const SheetChart& chart, const Column& column) {
  const Frame frame{column.width * kLabelShare, column.width};
  std::vector<Strip> strips = {axis(chart, frame, column.paper)};
  const auto head = std::make_shared<const Strip>(strips.front());
  for (const ChartRow& row : chart.rows) {
    strips.push_back(row_strip(chart, row, frame, column.paper));
    strips.back().head = head;
  }
  std::vector<Strip> words = legend(chart, column);
  std::move(words.begin(), words.end(), std::back_inserter(strips));
  strips.back().with_next = false;
  return strips;
}

}  // namespace coatwright
