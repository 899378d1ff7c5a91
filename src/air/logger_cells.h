#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// The text side of logger files: lines, cells, numbers. Nothing here knows what a column means.
namespace coatwright {

/// The text as UTF-8: itself without its byte-order mark when it is UTF-8 already, otherwise read
/// as Latin-1, which older loggers write for the degree sign.
/// @param storage holds the converted text; must outlive the result.
[[nodiscard]] std::string_view as_utf8(std::string_view text, std::string& storage);

/// Takes blanks off both ends.
[[nodiscard]] std::string_view trimmed(std::string_view text);

/// Walks over lines that end in LF, CR LF or, in a text without any LF, CR.
class LineReader {
 public:
  explicit LineReader(std::string_view text);

  /// @return false at the end of the text.
  bool next();
  [[nodiscard]] std::string_view line() const { return line_; }
  [[nodiscard]] std::size_t number() const { return number_; }  ///< Counted from 1.

 private:
  std::string_view rest_;
  std::string_view line_;
  std::size_t number_ = 0;
  char end_;
};

/// Cuts a line into cells without their blanks and quotes. Empty cells at the end are dropped,
/// since many loggers end each line with a separator.
/// @return false when a quote is not closed on the line.
bool split_cells(std::string_view line, char separator, std::vector<std::string_view>& cells);

enum class CellUnit : unsigned char { kNone, kCelsius, kFahrenheit, kPercent };

/// @return the unit that the text alone stands for, such as "°C" or "% RH"; kNone for no text.
[[nodiscard]] std::optional<CellUnit> unit_of_cell(std::string_view text);

struct CellNumber {
  double value;
  CellUnit unit;
  bool decimal_comma;
};

/// Reads a whole cell: digits with at most one decimal point or comma, perhaps a unit.
[[nodiscard]] std::optional<CellNumber> parse_cell_number(std::string_view cell);

/// The cell as it may stand in a message: short and without control characters.
[[nodiscard]] std::string shown_cell(std::string_view cell);

}  // namespace coatwright
