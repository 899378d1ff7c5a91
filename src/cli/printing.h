#pragma once

#include <string>

#include "cli/common.h"
#include "report/sheet.h"

namespace coatwright {

/// The options of a command that prints a sheet, as typed; empty: not given.
struct PrintOptions {
  std::string print = "text";
  std::string paper;
  std::string out;

  /// Whether a sheet of paper is asked for, and not the page of text.
  [[nodiscard]] bool is_on_paper() const { return print != "text"; }
};

/// Declares --print, --paper and --out.
void add_print_options(CLI::App& command, PrintOptions& options);

/// Prints a page of text or JSON, or writes it where --out says. Errors: as write_output_file().
[[nodiscard]] Result<void> put_out_page(const std::string& page, const PrintOptions& options);

/// Prints a sheet as --print says, or writes it where --out says; --paper is A4 where it is not
/// given, Letter in US units. Errors: kUsage where JSON is asked for too, or a PDF would go to a
/// terminal; as print_pdf() and write_output_file().
[[nodiscard]] Result<void> put_out_sheet(const Sheet& sheet,
                                         const PrintOptions& options,
                                         const Session& session);

/// A sheet as a PDF, by the module that is loaded for it. Errors: kFault where that is not
/// installed or cannot be loaded; as sheet_as_pdf().
[[nodiscard]] Result<std::string> print_pdf(const Sheet& sheet, PaperSize paper);

}  // namespace coatwright
