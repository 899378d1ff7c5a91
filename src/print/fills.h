#pragma once

#include <cairo/cairo.h>

#include "report/sheet.h"

namespace coatwright {

/// A rectangle on the paper, in points.
struct PaperArea {
  double x = 0;
  double y = 0;
  double width = 0;
  double height = 0;
};

/// Draws a bar that its fill tells from others without colour.
void draw_bar(cairo_t* paper, const PaperArea& bar, ChartFill fill);

/// Shades what lies behind the bars, so lightly that letters stay clear on it.
void draw_shade(cairo_t* paper, const PaperArea& area);

/// An empty box to tick, with its upper left corner at the point.
void draw_tick_box(cairo_t* paper, double x, double y, double side);

/// A line of a width in black, or in a grey where `shade` is above 0.
void draw_line(cairo_t* paper,
               double from_x,
               double from_y,
               double to_x,
               double to_y,
               double width,
               double shade = 0.0);

}  // namespace coatwright
