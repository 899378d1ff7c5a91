#pragma once

#include <string>
#include <string_view>
#include <vector>

/// Tables for spreadsheets. Source: [rfc4180] section 2.
namespace coatwright {

/// One cell. Text from outside is made harmless: a spreadsheet takes a cell that begins with one
/// of = + - @, a tab or a carriage return for a formula, so an apostrophe is put before it.
/// Source: [owasp_csv_injection]. Numbers of our own stay numbers, below zero too.
class CsvCell {
 public:
  /// Text from outside, or any other text.
  [[nodiscard]] static CsvCell text(std::string_view text);
  /// A number written by this program; empty where there is none.
  [[nodiscard]] static CsvCell number(std::string written) { return CsvCell(std::move(written)); }

  /// The cell as it stands in the file, quoted where it must be.
  [[nodiscard]] std::string written() const;

 private:
  explicit CsvCell(std::string content) : content_(std::move(content)) {}
  std::string content_;
};

/// A record, ended by CR LF.
[[nodiscard]] std::string csv_record(const std::vector<CsvCell>& cells);

}  // namespace coatwright
