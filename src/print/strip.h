#pragma once

#include <functional>
#include <memory>
#include <vector>

#include <cairo/cairo.h>

namespace coatwright {

/// A strip of the page as wide as its lines, which is never parted.
struct Strip {
  double height = 0;
  double space = 0;  ///< Above it, where it is not the first of the page.
  /// Draws it with its upper left corner at the point.
  std::function<void(cairo_t* paper, double x, double y)> draw;
  bool with_next = false;  ///< Stands on the page of the strip after it, where that can be.
  bool new_page = false;   ///< Begins a page.
  std::shared_ptr<const Strip> head = nullptr;  ///< Drawn above it where it begins a page.
};

/// A strip with its place on a page.
struct PlacedStrip {
  const Strip* strip = nullptr;
  double y = 0;  ///< From the top of what the page has for strips.
};

using PrintedPage = std::vector<PlacedStrip>;

/// Parts strips to pages of a height. Those that belong together are kept together unless they are
/// higher than a page; then the first four of them at least. There is always one page.
[[nodiscard]] std::vector<PrintedPage> pages_of(const std::vector<Strip>& strips, double height);

}  // namespace coatwright
