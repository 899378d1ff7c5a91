#pragma once

#include <string>

#include "base/result.h"
#include "report/sheet.h"

/// The one door of the module libcoatwright_print.so, which the program opens only when a PDF is
/// asked for, so that nothing else waits for the libraries that draw.
namespace coatwright {

/// Writes the PDF into `pdf`. @return whether it could; if not, why is in `error`.
using PrintEntry = bool(const Sheet& sheet, PaperSize paper, std::string& pdf, Error& error);

/// The name under which the module has it.
inline constexpr const char* kPrintEntryName = "coatwright_print_sheet";

}  // namespace coatwright
