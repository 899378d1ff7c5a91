#include "print/fills.h"

#include <algorithm>
#include <cmath>

namespace coatwright {
namespace {

constexpr double kOutline = 0.7;
constexpr double kHatchPitch = 4.0;
constexpr double kHatchWidth = 1.3;
constexpr double kDotPitch = 3.6;
constexpr double kDotRadius = 0.75;
constexpr double kShadePitch = 4.5;
constexpr double kShadeWidth = 0.35;
constexpr double kShadeGrey = 0.6;
constexpr double kFullTurn = 2.0 * 3.14159265358979323846;

void outline(cairo_t* paper, const PaperArea& area) {
  cairo_rectangle(paper, area.x, area.y, area.width, area.height);
}

/// Slanting lines over an area; upwards to the right, or downwards.
void hatch(cairo_t* paper, const PaperArea& area, double pitch, bool up) {
  cairo_save(paper);
  outline(paper, area);
  cairo_clip(paper);
  // They hang on the paper, not on the area, so that neighbours run on in each other.
  const double first = std::floor((area.x - area.height) / pitch) * pitch;
  for (double x = first; x < area.x + area.width + area.height; x += pitch) {
    const double slip = std::fmod(up ? area.y + area.height : -area.y, pitch);
    const double from = x + slip;
    cairo_move_to(paper, from, up ? area.y + area.height : area.y);
    cairo_line_to(paper, from + area.height, up ? area.y : area.y + area.height);
  }
  cairo_stroke(paper);
  cairo_restore(paper);
}

void dots(cairo_t* paper, const PaperArea& area) {
  cairo_save(paper);
  outline(paper, area);
  cairo_clip(paper);
  for (double y = area.y + kDotPitch / 2; y < area.y + area.height; y += kDotPitch) {
    for (double x = area.x + kDotPitch / 2; x < area.x + area.width; x += kDotPitch) {
      cairo_new_sub_path(paper);
      cairo_arc(paper, x, y, kDotRadius, 0.0, kFullTurn);
    }
  }
  cairo_fill(paper);
  cairo_restore(paper);
}

void thin_bar(cairo_t* paper, const PaperArea& bar) {
  const double middle = bar.y + bar.height / 2;
  draw_line(paper, bar.x, middle, bar.x + bar.width, middle, 1.2);
  const double end = bar.x + bar.width - 0.6;
  draw_line(paper, end, middle - bar.height / 4, end, middle + bar.height / 4, 1.2);
}

}  // namespace

void draw_line(cairo_t* paper,
               double from_x,
               double from_y,
               double to_x,
               double to_y,
               double width,
               double shade) {
  cairo_set_source_rgb(paper, shade, shade, shade);
  cairo_set_line_width(paper, width);
  cairo_move_to(paper, from_x, from_y);
  cairo_line_to(paper, to_x, to_y);
  cairo_stroke(paper);
}

void draw_bar(cairo_t* paper, const PaperArea& bar, ChartFill fill) {
  if (fill == ChartFill::kLine) {
    thin_bar(paper, bar);
    return;
  }
  const double ground = fill == ChartFill::kSolid ? 0.0 : 1.0;
  cairo_set_source_rgb(paper, ground, ground, ground);
  outline(paper, bar);
  cairo_fill(paper);
  cairo_set_source_rgb(paper, 0, 0, 0);
  if (fill == ChartFill::kHatched) {
    cairo_set_line_width(paper, kHatchWidth);
    hatch(paper, bar, kHatchPitch, true);
  } else if (fill == ChartFill::kDotted) {
    dots(paper, bar);
  }
  cairo_set_line_width(paper, kOutline);
  outline(paper, bar);
  cairo_stroke(paper);
}

void draw_shade(cairo_t* paper, const PaperArea& area) {
  cairo_set_source_rgb(paper, kShadeGrey, kShadeGrey, kShadeGrey);
  cairo_set_line_width(paper, kShadeWidth);
  hatch(paper, area, kShadePitch, false);
}

void draw_tick_box(cairo_t* paper, double x, double y, double side) {
  cairo_set_source_rgb(paper, 0, 0, 0);
  cairo_set_line_width(paper, kOutline);
  outline(paper, {x, y, side, side});
  cairo_stroke(paper);
}

}  // namespace coatwright
