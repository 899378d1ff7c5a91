#include "print/lettering.h"

#include <algorithm>

namespace coatwright {
namespace {

constexpr const char* kFamily = "DejaVu Sans";

template <class T>
struct Unref {
  void operator()(T* object) const { g_object_unref(object); }
};

double in_points(int pango_units) {
  return static_cast<double>(pango_units) / PANGO_SCALE;
}

/// Set without hinting and rounding, so that lines break alike everywhere.
std::shared_ptr<PangoLayout> new_layout(cairo_t* paper) {
  const std::shared_ptr<PangoContext> context(pango_cairo_create_context(paper),
                                              Unref<PangoContext>());
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options(context.get(), options);
  cairo_font_options_destroy(options);
  constexpr double kPointsPerInch = 72.0;
  pango_cairo_context_set_resolution(context.get(), kPointsPerInch);
  pango_context_set_round_glyph_positions(context.get(), FALSE);
  pango_context_set_language(context.get(), pango_language_from_string("en"));
  return {pango_layout_new(context.get()), Unref<PangoLayout>()};
}

void set_font(PangoLayout* layout, const Style& style) {
  PangoFontDescription* font = pango_font_description_new();
  pango_font_description_set_family_static(font, kFamily);
  pango_font_description_set_size(font, static_cast<int>(style.points * PANGO_SCALE));
  pango_font_description_set_weight(font, style.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_layout_set_font_description(layout, font);
  pango_font_description_free(font);
}

/// A word that is broken gets no hyphen: it may be a name in which one means something.
void set_without_hyphens(PangoLayout* layout) {
  PangoAttrList* attributes = pango_attr_list_new();
  pango_attr_list_insert(attributes, pango_attr_insert_hyphens_new(FALSE));
  pango_layout_set_attributes(layout, attributes);
  pango_attr_list_unref(attributes);
}

void set_text(PangoLayout* layout, const std::string& text) {
  char* valid = g_utf8_make_valid(text.data(), static_cast<gssize>(text.size()));
  pango_layout_set_text(layout, valid, -1);
  g_free(valid);
}

}  // namespace

double points_of(SheetSize size) {
  switch (size) {
    case SheetSize::kBig:
      return 36.0;
    case SheetSize::kLarge:
      return 18.0;
    case SheetSize::kBody:
      break;
    case SheetSize::kSmall:
      return 7.5;
  }
  return 10.0;
}

Lettering::Lettering(cairo_t* paper, const std::string& text, double width, const Style& style)
    : layout_(new_layout(paper)) {
  set_font(layout_.get(), style);
  set_without_hyphens(layout_.get());
  set_text(layout_.get(), text);
  pango_layout_set_wrap(layout_.get(), PANGO_WRAP_WORD_CHAR);
  pango_layout_set_width(layout_.get(), width < 0 ? -1 : static_cast<int>(width * PANGO_SCALE));
  PangoLayoutIter* at = pango_layout_get_iter(layout_.get());
  do {
    PangoRectangle logical;
    pango_layout_iter_get_line_extents(at, nullptr, &logical);
    width_ = std::max(width_, in_points(logical.width));
    lines_.push_back({in_points(logical.y),
                      in_points(logical.y + logical.height),
                      in_points(pango_layout_iter_get_baseline(at)),
                      pango_layout_iter_get_line_readonly(at)});
  } while (pango_layout_iter_next_line(at) != FALSE);
  pango_layout_iter_free(at);
}

double Lettering::height_of_lines(std::size_t first, std::size_t count) const {
  const std::size_t end = std::min(first + count, lines());
  return first < end ? lines_[end - 1].bottom - lines_[first].top : 0.0;
}

void Lettering::draw_lines(
    cairo_t* paper, double x, double y, std::size_t first, std::size_t count) const {
  cairo_set_source_rgb(paper, 0, 0, 0);
  for (std::size_t i = first; i < std::min(first + count, lines()); ++i) {
    cairo_move_to(paper, x, y + lines_[i].baseline - lines_[first].top);
    pango_cairo_show_layout_line(paper, lines_[i].set);
  }
}

}  // namespace coatwright
