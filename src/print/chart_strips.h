#pragma once

#include "print/text_strips.h"

namespace coatwright {

/// The axis, a strip for each row, and the legend; on one page where they fit on one.
[[nodiscard]] std::vector<Strip> strips_of(const SheetChart& chart, const Column& column);

}  // namespace coatwright
