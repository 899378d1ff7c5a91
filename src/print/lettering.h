#pragma once

#include <memory>
#include <string>
#include <vector>

#include <pango/pangocairo.h>

#include "report/sheet.h"

namespace coatwright {

/// How a text is set.
struct Style {
  double points = 0;  ///< Size of type.
  bool bold = false;
};

/// Size of type. A capital of the family is 0.73 of the size high, so 36 points are 16 minutes of
/// arc from 2 m, and 18 points from 1 m. The rest is taste. Source: [iso_9241_303] 16 minutes of
/// arc at the least (from memory).
[[nodiscard]] double points_of(SheetSize size);

/// A text broken into lines for a width. Lengths are in points, 1/72 inch. Cheap to copy.
class Lettering {
 public:
  /// What does not fit on a line is wrapped, long words too. Bytes that are no UTF-8 are replaced.
  /// @param width of the line; negative: it is not broken.
  Lettering(cairo_t* paper, const std::string& text, double width, const Style& style);

  [[nodiscard]] double width() const { return width_; }
  [[nodiscard]] double height() const { return height_of_lines(0, lines()); }
  [[nodiscard]] std::size_t lines() const { return lines_.size(); }
  /// Of `count` lines from the one at `first`; those that there are not count nothing.
  [[nodiscard]] double height_of_lines(std::size_t first, std::size_t count) const;

  /// Draws with the upper left corner at the point.
  void draw(cairo_t* paper, double x, double y) const { draw_lines(paper, x, y, 0, lines()); }
  void draw_lines(cairo_t* paper, double x, double y, std::size_t first, std::size_t count) const;

 private:
  struct Line {
    double top;
    double bottom;
    double baseline;
    PangoLayoutLine* set;  // belongs to the layout
  };
  std::shared_ptr<PangoLayout> layout_;
  std::vector<Line> lines_;
  double width_ = 0;
};

}  // namespace coatwright
