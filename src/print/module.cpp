#include <exception>

#include "print/entry.h"
#include "print/sheet_pdf.h"

/// As PrintEntry says. No exception passes the door.
extern "C" bool coatwright_print_sheet(const coatwright::Sheet& sheet,
                                       coatwright::PaperSize paper,
                                       std::string& pdf,
                                       coatwright::Error& error) {
  try {
    auto printed = coatwright::sheet_as_pdf(sheet, paper);
    if (printed) {
      pdf = std::move(*printed);
    } else {
      error = printed.error();
    }
    return printed.has_value();
  } catch (const std::exception& exception) {
    error = {coatwright::ErrorCode::kFault, exception.what(), {"printing"}};
    return false;
  }
}
