#pragma once

#include <string>

#include "report/sheet.h"

namespace coatwright {

/// A sheet as one HTML 5 document that is well-formed XML too: no script, no file beside it, black
/// on white, with rules for printing on the paper. Text is escaped; bytes that are no UTF-8 become
/// U+FFFD. The same sheet gives the same bytes.
[[nodiscard]] std::string sheet_as_html(const Sheet& sheet, PaperSize paper);

}  // namespace coatwright
