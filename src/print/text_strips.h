#pragma once

#include "print/lettering.h"
#include "print/strip.h"

namespace coatwright {

/// What blocks are laid out for.
struct Column {
  cairo_t* paper = nullptr;  ///< Its fonts measure the text.
  double width = 0;
  double height = 0;  ///< Of the page, for what must be parted.
};

[[nodiscard]] std::vector<Strip> strips_of(const SheetHeading& heading, const Column& column);
[[nodiscard]] std::vector<Strip> strips_of(const SheetText& text, const Column& column);
/// Set smaller where it would not fit on a page, and parted where the smallest type does not.
[[nodiscard]] std::vector<Strip> strips_of(const SheetBox& box, const Column& column);
[[nodiscard]] std::vector<Strip> strips_of(const SheetList& list, const Column& column);

}  // namespace coatwright
