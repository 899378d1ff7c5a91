#include "cli/printing.h"

#include <CLI/CLI.hpp>
#include <dlfcn.h>
#include <fmt/format.h>
#include <unistd.h>

#include "print/entry.h"
#include "report/sheet_html.h"
#include "report/sheet_text.h"

namespace coatwright {
namespace {

constexpr const char* kModule = "libcoatwright_print.so";

/// Beside the program, as it is built, and where it is installed.
std::vector<std::filesystem::path> module_places() {
  std::error_code unreadable;
  const auto program = std::filesystem::read_symlink("/proc/self/exe", unreadable);
  const auto folder = program.parent_path();
  return {folder / kModule, folder.parent_path() / "lib" / "coatwright" / kModule};
}

/// The module's door. It stays loaded until the program ends.
Result<PrintEntry*> print_entry() {
  for (const std::filesystem::path& place : module_places()) {
    std::error_code unreadable;
    if (!std::filesystem::exists(place, unreadable)) {
      continue;
    }
    void* module = dlopen(place.c_str(), RTLD_NOW | RTLD_LOCAL);
    void* entry = module == nullptr ? nullptr : dlsym(module, kPrintEntryName);
    if (entry == nullptr) {
      const char* why = dlerror();
      return fail(ErrorCode::kFault,
                  fmt::format("what writes PDF cannot be loaded: {}. --print html and --print "
                              "text do without it",
                              why == nullptr ? "no reason is given" : why));
    }
    return reinterpret_cast<PrintEntry*>(entry);
  }
  return fail(ErrorCode::kFault,
              fmt::format("what writes PDF is not installed: {} is neither beside the program nor "
                          "in ../lib/coatwright. --print html and --print text do without it",
                          kModule));
}

PaperSize paper_of(const PrintOptions& options, const Session& session) {
  const bool letter =
      options.paper.empty() ? session.units == UnitSystem::kUs : options.paper == "letter";
  return letter ? PaperSize::kLetter : PaperSize::kA4;
}

Result<std::string> printed(const Sheet& sheet,
                            const PrintOptions& options,
                            const Session& session) {
  if (options.print == "html") {
    return sheet_as_html(sheet, paper_of(options, session));
  }
  if (options.print != "pdf") {
    return sheet_as_text(sheet);
  }
  if (options.out.empty() && isatty(STDOUT_FILENO) == 1) {
    return fail(ErrorCode::kUsage, "--print pdf needs --out FILE: a PDF is nothing for a terminal");
  }
  return print_pdf(sheet, paper_of(options, session));
}

}  // namespace

void add_print_options(CLI::App& command, PrintOptions& options) {
  command.add_option("--print", options.print, "As a page of text, or a sheet of paper [text]")
      ->type_name("text|html|pdf")
      ->check(CLI::IsMember({"text", "html", "pdf"}));
  command.add_option("--paper", options.paper, "Size of the paper [a4; letter in US units]")
      ->type_name("a4|letter")
      ->check(CLI::IsMember({"a4", "letter"}));
  command.add_option("--out", options.out, "Write there instead of on standard output")
      ->type_name("FILE");
}

Result<void> put_out_page(const std::string& page, const PrintOptions& options) {
  if (!options.out.empty()) {
    return write_output_file(options.out, page);
  }
  print_out(page);
  return {};
}

Result<void> put_out_sheet(const Sheet& sheet,
                           const PrintOptions& options,
                           const Session& session) {
  if (session.json) {
    return fail(ErrorCode::kUsage,
                fmt::format("--json and --print {} do not go together", options.print));
  }
  const auto page = printed(sheet, options, session);
  if (!page) {
    return pass_on(page.error());
  }
  return put_out_page(*page, options);
}

Result<std::string> print_pdf(const Sheet& sheet, PaperSize paper) {
  const auto entry = print_entry();
  if (!entry) {
    return pass_on(entry.error());
  }
  std::string pdf;
  Error error;
  if (!(*entry)(sheet, paper, pdf, error)) {
    return pass_on(std::move(error));
  }
  return pdf;
}

}  // namespace coatwright
