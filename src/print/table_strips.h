#pragma once

#include "print/text_strips.h"

namespace coatwright {

/// A strip for each row, with the heads above the first of each page. A row higher than half of
/// the page is parted between its lines.
[[nodiscard]] std::vector<Strip> strips_of(const SheetTable& table, const Column& column);

}  // namespace coatwright
