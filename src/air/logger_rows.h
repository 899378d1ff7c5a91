#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "air/logger_cells.h"
#include "air/logger_columns.h"
#include "air/logger_times.h"

namespace coatwright {

/// A row that could be read cell by cell; what its time and temperature mean is settled later, by
/// all rows together.
struct LoggerRow {
  std::size_t line;
  std::string_view text;
  CellTime time;
  double temperature;  ///< In the file's unit until that is settled, then in Celsius.
  double humidity;     ///< As written until its scale is settled, then percent.
  CellUnit unit;       ///< As the temperature's cell says.
  LocalTime local;     ///< Set once the order of the dates is settled.
};

/// Why a row is broken; nothing when it is whole.
using RowProblem = std::optional<std::string>;

/// 'column "temperature": value "abc": a number is needed'
[[nodiscard]] std::string problem_at(std::string_view column,
                                     std::string_view cell,
                                     std::string_view wrong);

/// @return true when both units are known and differ.
[[nodiscard]] inline bool is_other_unit(CellUnit found, CellUnit wanted) {
  return found != CellUnit::kNone && wanted != CellUnit::kNone && found != wanted;
}

/// Reads rows and gathers what only all of them together tell about the file.
class RowReader {
 public:
  /// @param layout must outlive the reader.
  explicit RowReader(const LoggerLayout& layout) : layout_(layout) {}

  [[nodiscard]] RowProblem read(const std::vector<std::string_view>& cells, LoggerRow& row);

  [[nodiscard]] const DateOrderFinder& dates() const { return dates_; }
  [[nodiscard]] bool decimal_commas() const { return decimal_commas_; }
  [[nodiscard]] bool percent_in_cells() const { return percent_in_cells_; }

 private:
  [[nodiscard]] RowProblem read_time(const std::vector<std::string_view>& cells, LoggerRow& row);

  const LoggerLayout& layout_;
  DateOrderFinder dates_;
  bool decimal_commas_ = false;
  bool percent_in_cells_ = false;
};

}  // namespace coatwright
