#include "report/sheet_svg.h"

#include <algorithm>

#include <fmt/format.h>

#include "report/html_text.h"

namespace coatwright {
namespace {

// In the picture's own units; what is printed scales it to the line's width.
constexpr double kWidth = 1000;
constexpr double kLabels = 190;
constexpr double kAxis = 56;
constexpr double kRow = 36;
constexpr double kBar = 17;
constexpr double kLetter = 13;     // size of type
constexpr double kSmall = 11;      // of the labels of bars
constexpr double kAdvance = 0.58;  // width of a letter by its size: a little more than usual
constexpr double kLegendLine = 24;
constexpr double kSwatch = 34;
constexpr double kEdge = 6;

double width_of(std::string_view text) {
  const auto letters = std::count_if(text.begin(), text.end(), [](char byte) {
    return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U;
  });
  return static_cast<double>(letters) * kLetter * kAdvance;
}

double place(double share) {
  return kLabels + std::clamp(share, 0.0, 1.0) * (kWidth - kLabels - kEdge);
}

std::string_view word_for(ChartFill fill) {
  switch (fill) {
    case ChartFill::kSolid:
      return "solid";
    case ChartFill::kOpen:
      return "open";
    case ChartFill::kHatched:
      return "hatched";
    case ChartFill::kDotted:
      return "dotted";
    case ChartFill::kLine:
      return "a line";
  }
  return "";
}

std::string patterns(int number) {
  return fmt::format(
      "<defs>"
      "<pattern id=\"hatched{0}\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\" "
      "patternTransform=\"rotate(45)\"><rect width=\"6\" height=\"6\" fill=\"#fff\"/>"
      "<rect width=\"2\" height=\"6\" fill=\"#000\"/></pattern>"
      "<pattern id=\"dotted{0}\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\">"
      "<rect width=\"6\" height=\"6\" fill=\"#fff\"/>"
      "<circle cx=\"3\" cy=\"3\" r=\"1.1\" fill=\"#000\"/></pattern>"
      "<pattern id=\"closed{0}\" width=\"7\" height=\"7\" patternUnits=\"userSpaceOnUse\" "
      "patternTransform=\"rotate(-45)\"><rect width=\"0.8\" height=\"7\" fill=\"#999\"/>"
      "</pattern></defs>\n",
      number);
}

std::string fill_of(ChartFill fill, int number) {
  switch (fill) {
    case ChartFill::kHatched:
      return fmt::format("url(#hatched{})", number);
    case ChartFill::kDotted:
      return fmt::format("url(#dotted{})", number);
    case ChartFill::kOpen:
      return "#fff";
    case ChartFill::kSolid:
    case ChartFill::kLine:
      break;
  }
  return "#000";
}

std::string bar_shape(double x, double y, double width, ChartFill fill, int number) {
  if (fill == ChartFill::kLine) {
    return fmt::format(
        "<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"2\"/>"
        "<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"1.5\" height=\"8\"/>\n",
        x,
        y + kBar / 2 - 1,
        width,
        x + width - 1.5,
        y + kBar / 2 - 4);
  }
  return fmt::format(
      "<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.0f}\" fill=\"{}\" "
      "stroke=\"#000\"/>\n",
      x,
      y,
      width,
      kBar,
      fill_of(fill, number));
}

std::string letters(double x, double y, std::string_view text, std::string_view more = "") {
  return fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\"{}{}>{}</text>\n",
                     x,
                     y,
                     more.empty() ? "" : " ",
                     more,
                     html_escaped(text));
}

/// The labels above their bars, those of solid ones first; where two would touch, the later is left
/// out: the description and the tables of the sheet tell it.
std::string bar_labels(const ChartRow& row, double y) {
  std::string svg;
  std::vector<std::pair<double, double>> taken;
  const auto put = [&](const ChartBar& bar) {
    const double width = width_of(bar.label) * kSmall / kLetter;
    const double x = std::min(place(bar.from), kWidth - width);
    const bool free = std::none_of(taken.begin(), taken.end(), [&](const auto& other) {
      return x < other.second + 4 && other.first < x + width + 4;
    });
    if (!bar.label.empty() && free) {
      svg += letters(x, y, bar.label, fmt::format("font-size=\"{:.0f}\"", kSmall));
      taken.emplace_back(x, x + width);
    }
  };
  for (const bool solid : {true, false}) {
    for (const ChartBar& bar : row.bars) {
      if ((bar.fill == ChartFill::kSolid) == solid) {
        put(bar);
      }
    }
  }
  return svg;
}

std::string row_label(std::string_view label, double y) {
  const auto most = static_cast<std::size_t>((kLabels - 8) / (kLetter * kAdvance));
  if (label.size() <= most) {
    return letters(0, y + kRow / 2 + kLetter * 0.36, label);
  }
  const auto blank = label.rfind(' ', most);
  const std::string_view first = label.substr(0, blank);
  if (blank == std::string_view::npos || label.size() - blank > most) {  // squeezed, not cut
    const auto squeeze =
        fmt::format("textLength=\"{:.0f}\" lengthAdjust=\"spacingAndGlyphs\"", kLabels - 8);
    return letters(0, y + kRow / 2 + kLetter * 0.36, label, squeeze);
  }
  return letters(0, y + kRow / 2 - 2, first) +
         letters(0, y + kRow / 2 + kLetter, label.substr(blank + 1));
}

std::string chart_row(const ChartRow& row, double y, int number) {
  std::string svg = row_label(row.label, y);
  const double top = y + kRow - kBar - 3;
  for (const ChartBar& bar : row.bars) {
    const double width = std::max(1.5, place(bar.to) - place(bar.from));
    svg += bar_shape(place(bar.from), top, width, bar.fill, number);
  }
  svg += bar_labels(row, top - 3);
  return svg + fmt::format("<rect x=\"0\" y=\"{:.1f}\" width=\"{:.0f}\" height=\"0.5\"/>\n",
                           y + kRow,
                           kWidth);
}

/// A day's name within its day: on two lines, or squeezed, where the day is narrow.
std::string day_name(double x, double room, const std::string& name) {
  constexpr double kBold = 1.15;  // a bold letter's width by a plain one's
  constexpr std::string_view kWeight = "font-weight=\"bold\"";
  const auto line = [&](double y, std::string_view text) {
    const bool fits = width_of(text) * kBold <= room;
    return letters(
        x,
        y,
        text,
        fits ? std::string(kWeight)
             : fmt::format(
                   "{} textLength=\"{:.0f}\" lengthAdjust=\"spacingAndGlyphs\"", kWeight, room));
  };
  const auto blank = name.rfind(' ');
  if (width_of(name) * kBold <= room || blank == std::string::npos) {
    return line(kLetter + 2, name);
  }
  return line(kLetter + 2, name.substr(0, blank)) + line(2 * kLetter + 4, name.substr(blank + 1));
}

/// Where the day that begins with a tick ends.
double end_of_day(const SheetChart& chart, std::size_t tick) {
  for (std::size_t i = tick + 1; i < chart.ticks.size(); ++i) {
    if (chart.ticks[i].strong) {
      return place(chart.ticks[i].at);
    }
  }
  return kWidth;
}

std::string axis(const SheetChart& chart, double bottom) {
  std::string svg;
  double free_from = 0;
  for (std::size_t i = 0; i < chart.ticks.size(); ++i) {
    const ChartTick& tick = chart.ticks[i];
    const double x = place(tick.at);
    const double top = tick.strong ? 2 : kAxis - 5;
    svg += fmt::format("<rect x=\"{:.1f}\" y=\"{:.0f}\" width=\"{}\" height=\"{:.1f}\"/>\n",
                       x,
                       top,
                       tick.strong ? 1.6 : 0.4,
                       bottom - top);
    const double width = width_of(tick.label);
    if (tick.label.empty()) {
      continue;
    }
    if (tick.strong) {
      svg += day_name(x + 5, std::max(end_of_day(chart, i) - x - 8, 4.0), tick.label);
    } else if (x - width / 2 >= free_from && x + width / 2 <= kWidth) {
      svg += letters(x, kAxis - 8, tick.label, "text-anchor=\"middle\"");
      free_from = x + width / 2 + 2;
    }
  }
  return svg;
}

std::string closed_hours(const SheetChart& chart, double bottom, int number) {
  std::string svg;
  for (const ChartBar& bar : chart.closed) {
    svg += fmt::format(
        "<rect x=\"{:.1f}\" y=\"{:.0f}\" width=\"{:.1f}\" height=\"{:.1f}\" "
        "fill=\"url(#closed{})\"/>\n",
        place(bar.from),
        kAxis,
        place(bar.to) - place(bar.from),
        bottom - kAxis,
        number);
  }
  return svg;
}

/// The legend's entries, one after the other, and the height that they take.
std::pair<std::string, double> legend(const SheetChart& chart, double top, int number) {
  std::string svg;
  double x = 0;
  double y = top + 10;
  const auto advance = [&](std::string_view text) {
    const double width = kSwatch + 8 + width_of(text) + 18;
    if (x > 0 && x + width > kWidth) {
      x = 0;
      y += kLegendLine;
    }
    const double at = x;
    x += width;
    return at;
  };
  const auto words = [&](double at, std::string_view text) {
    svg += letters(at + kSwatch + 8, y + kBar / 2 + kLetter * 0.36, text);
  };
  for (const auto& [fill, text] : chart.legend) {
    const double at = advance(text);
    svg += bar_shape(at, y, kSwatch, fill, number);
    words(at, text);
  }
  if (!chart.closed_label.empty()) {
    const double at = advance(chart.closed_label);
    svg += fmt::format(
        "<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.0f}\" height=\"{:.0f}\" "
        "fill=\"url(#closed{})\"/>\n",
        at,
        y,
        kSwatch,
        kBar,
        number);
    words(at, chart.closed_label);
  }
  const bool none = chart.legend.empty() && chart.closed_label.empty();
  return {svg, none ? 0.0 : y + kLegendLine - top};
}

std::string meaning(const SheetChart& chart, ChartFill fill) {
  for (const auto& [known, text] : chart.legend) {
    if (known == fill) {
      return text;
    }
  }
  return std::string(word_for(fill));
}

/// The rows in words, in order of time.
std::string description(const SheetChart& chart) {
  std::string text;
  for (const ChartRow& row : chart.rows) {
    text += (text.empty() ? "" : " ") + row.label + ": ";
    std::string said;
    for (const ChartBar& bar : row.bars) {
      said += (said.empty() ? "" : ", ") + meaning(chart, bar.fill);
      said += bar.label.empty() ? "" : " " + bar.label;
    }
    text += (said.empty() ? "nothing" : said) + ".";
  }
  return text;
}

}  // namespace

std::string chart_as_svg(const SheetChart& chart, int number) {
  const double bottom = kAxis + kRow * static_cast<double>(chart.rows.size());
  const auto [legend_svg, legend_height] = legend(chart, bottom, number);
  std::string svg = fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" viewBox=\"0 0 {:.0f} {:.0f}\" "
      "font-size=\"{:.0f}\" aria-labelledby=\"chart{} rows{}\">\n",
      kWidth,
      bottom + legend_height + 2,
      kLetter,
      number,
      number);
  svg += fmt::format(
      "<title id=\"chart{}\">Chart of {} rows over time</title>\n", number, chart.rows.size());
  svg += fmt::format("<desc id=\"rows{}\">{}</desc>\n", number, html_escaped(description(chart)));
  svg += patterns(number) + closed_hours(chart, bottom, number) + axis(chart, bottom);
  double y = kAxis;
  for (const ChartRow& row : chart.rows) {
    svg += chart_row(row, y, number);
    y += kRow;
  }
  return svg + legend_svg + "</svg>\n";
}

}  // namespace coatwright
