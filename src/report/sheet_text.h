#pragma once

#include <string>

#include "report/sheet.h"

namespace coatwright {

/// A sheet as plain text of at most 80 columns. Columns of a table that are empty in every row,
/// which are there to be filled in by hand, are left out; of a chart its rows are named in order.
[[nodiscard]] std::string sheet_as_text(const Sheet& sheet);

}  // namespace coatwright
