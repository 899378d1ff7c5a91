#pragma once

#include <string>

#include "base/result.h"
#include "report/sheet.h"

namespace coatwright {

/// A sheet as a PDF: its blocks flow over as many pages as they need, with the title, the foot and
/// "page 2 of 3" on each. A heading stays with what follows it, a box is not parted, and the heads
/// of a table and the axis of a chart stand again on each page. Text can be selected, and its fonts
/// are in the file. The same sheet gives the same bytes where the same fonts are installed.
/// Errors: kOutOfRange where title, subtitle and foot leave no room on the page; kFault where the
/// drawing library fails.
[[nodiscard]] Result<std::string> sheet_as_pdf(const Sheet& sheet, PaperSize paper);

}  // namespace coatwright
