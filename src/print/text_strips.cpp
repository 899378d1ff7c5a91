#include "print/text_strips.h"

#include <algorithm>

#include "print/fills.h"

namespace coatwright {
namespace {

constexpr double kHeadingPoints = 13.0;
constexpr double kHeadingSpace = 12.0;
constexpr double kTextSpace = 4.0;
constexpr double kItemSpace = 2.5;
constexpr double kBoxSpace = 8.0;
constexpr double kBoxPadding = 8.0;
constexpr double kBoxLine = 2.0;

/// A strip for each line, the first two and the last two of them together.
std::vector<Strip> line_strips(const Lettering& text, double indent, double space) {
  std::vector<Strip> strips;
  for (std::size_t i = 0; i < text.lines(); ++i) {
    Strip strip;
    strip.height = text.height_of_lines(i, 1);
    strip.space = i == 0 ? space : 0.0;
    strip.draw = [text, indent, i](cairo_t* paper, double x, double y) {
      text.draw_lines(paper, x + indent, y, i, 1);
    };
    strip.with_next = i + 1 < text.lines() && (i == 0 || i + 2 == text.lines());
    strips.push_back(std::move(strip));
  }
  return strips;
}

/// What stands in a box.
struct BoxTexts {
  std::vector<Lettering> texts;

  [[nodiscard]] double height() const {
    double height = 2 * kBoxPadding;
    for (const Lettering& text : texts) {
      height += text.height() + (&text == texts.data() ? 0.0 : kTextSpace);
    }
    return height;
  }
};

BoxTexts box_texts(const SheetBox& box, SheetSize size, const Column& column) {
  BoxTexts texts;
  const double width = column.width - 2 * kBoxPadding - kBoxLine;
  const auto add = [&](const std::string& text, SheetSize of, bool bold) {
    if (!text.empty()) {
      texts.texts.emplace_back(column.paper, text, width, Style{points_of(of), bold});
    }
  };
  add(box.title, size, true);
  add(box.text, box.title.empty() ? size : one_smaller(size), false);
  return texts;
}

Strip whole_box(const BoxTexts& texts, double width) {
  Strip strip;
  strip.height = texts.height();
  strip.space = kBoxSpace;
  strip.draw = [texts, width, height = strip.height](cairo_t* paper, double x, double y) {
    cairo_set_source_rgb(paper, 0, 0, 0);
    cairo_set_line_width(paper, kBoxLine);
    cairo_rectangle(paper, x + kBoxLine / 2, y + kBoxLine / 2, width - kBoxLine, height - kBoxLine);
    cairo_stroke(paper);
    double at = y + kBoxPadding;
    for (const Lettering& text : texts.texts) {
      text.draw(paper, x + kBoxPadding + kBoxLine / 2, at);
      at += text.height() + kTextSpace;
    }
  };
  return strip;
}

/// Lines with a bar at their left, for a box that no page holds.
std::vector<Strip> parted_box(const BoxTexts& texts) {
  std::vector<Strip> strips;
  for (const Lettering& text : texts.texts) {
    for (Strip& strip : line_strips(text, kBoxPadding, 0.0)) {
      strip.draw = [draw = strip.draw, height = strip.height](cairo_t* paper, double x, double y) {
        draw_line(paper, x + 1, y, x + 1, y + height, kBoxLine);
        draw(paper, x, y);
      };
      strips.push_back(std::move(strip));
    }
  }
  return strips;
}

/// The mark before an item: a box to tick, or a dash.
void draw_mark(cairo_t* paper, double x, double y, double points, bool tick) {
  if (tick) {
    draw_tick_box(paper, x + 0.5, y + points * 0.2, points * 0.85);
  } else {
    const double middle = y + points * 0.68;
    draw_line(paper, x + 1, middle, x + 1 + points * 0.5, middle, points * 0.07);
  }
}

}  // namespace

std::vector<Strip> strips_of(const SheetHeading& heading, const Column& column) {
  const Lettering text(column.paper, heading.text, column.width, {kHeadingPoints, true});
  std::vector<Strip> strips = line_strips(text, 0.0, kHeadingSpace);
  for (Strip& strip : strips) {
    strip.with_next = true;
  }
  strips.back().height += 2.0;
  return strips;
}

std::vector<Strip> strips_of(const SheetText& text, const Column& column) {
  const Lettering lettering(
      column.paper, text.text, column.width, {points_of(text.size), text.bold});
  return line_strips(lettering, 0.0, kTextSpace);
}

std::vector<Strip> strips_of(const SheetBox& box, const Column& column) {
  SheetSize size = box.size;
  BoxTexts texts = box_texts(box, size, column);
  while (texts.height() > column.height && size != SheetSize::kSmall) {
    size = one_smaller(size);
    texts = box_texts(box, size, column);
  }
  if (texts.height() > column.height) {
    return parted_box(texts);
  }
  return {whole_box(texts, column.width)};
}

std::vector<Strip> strips_of(const SheetList& list, const Column& column) {
  std::vector<Strip> strips;
  const double points = points_of(list.size);
  const double indent = list.tick ? points * 1.6 : points * 1.1;
  for (const std::string& item : list.items) {
    const Lettering text(column.paper, item, column.width - indent, {points, false});
    std::vector<Strip> lines = line_strips(text, indent, kItemSpace);
    lines.front().draw = [draw = lines.front().draw, points, tick = list.tick](
                             cairo_t* paper, double x, double y) {
      draw_mark(paper, x, y, points, tick);
      draw(paper, x, y);
    };
    std::move(lines.begin(), lines.end(), std::back_inserter(strips));
  }
  return strips;
}

}  // namespace coatwright
