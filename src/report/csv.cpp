#include "report/csv.h"

namespace coatwright {

CsvCell CsvCell::text(std::string_view text) {
  constexpr std::string_view kFormulaBeginnings = "=+-@\t\r";  // [owasp_csv_injection]
  const bool is_formula =
      !text.empty() && kFormulaBeginnings.find(text.front()) != std::string_view::npos;
  return CsvCell((is_formula ? "'" : "") + std::string(text));
}

std::string CsvCell::written() const {
  if (content_.find_first_of(",\"\r\n") == std::string::npos) {
    return content_;
  }
  std::string quoted = "\"";  // [rfc4180] rules 6 and 7
  for (const char c : content_) {
    quoted += c == '"' ? "\"\"" : std::string(1, c);
  }
  return quoted + "\"";
}

std::string csv_record(const std::vector<CsvCell>& cells) {
  std::string record;
  bool first = true;
  for (const CsvCell& cell : cells) {
    record += (first ? "" : ",") + cell.written();
    first = false;
  }
  return record + "\r\n";  // [rfc4180] rule 1
}

}  // namespace coatwright
