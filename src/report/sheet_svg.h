#pragma once

#include <string>

#include "report/sheet.h"

namespace coatwright {

/// A chart as an inline SVG element: fills are patterns in black and white, and a title and a
/// description say in words what it shows. `number` makes the ids of its patterns its own.
[[nodiscard]] std::string chart_as_svg(const SheetChart& chart, int number);

}  // namespace coatwright
