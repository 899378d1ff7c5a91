#include "air/logger_rows.h"

#include <fmt/format.h>

namespace coatwright {

std::string problem_at(std::string_view column, std::string_view cell, std::string_view wrong) {
  return fmt::format("column \"{}\": value \"{}\": {}", column, shown_cell(cell), wrong);
}

RowProblem RowReader::read_time(const std::vector<std::string_view>& cells, LoggerRow& row) {
  const auto cell_at = [&](const LoggerColumn& column) {
    return column.index < cells.size() ? cells[column.index] : std::string_view();
  };
  const std::string_view cell = cell_at(layout_.time);
  const auto time = parse_cell_time(cell);
  if (!layout_.clock) {
    if (!time || !time->has_date() || !time->clock) {
      return problem_at("time", cell, "a date and a time of day are needed");
    }
    row.time = *time;
  } else {
    const auto clock = parse_cell_time(cell_at(*layout_.clock));
    if (!time || !time->has_date() || time->clock) {
      return problem_at("date", cell, "a date is needed");
    }
    if (!clock || clock->has_date()) {
      return problem_at("time", cell_at(*layout_.clock), "a time of day is needed");
    }
    row.time = *time;
    row.time.clock = clock->clock;
    row.time.offset = clock->offset;
  }
  dates_.add(row.line, cell, row.time);
  return std::nullopt;
}

RowProblem RowReader::read(const std::vector<std::string_view>& cells, LoggerRow& row) {
  if (cells.size() > layout_.cells) {
    return fmt::format(
        "{} cells, where {} are expected (a decimal comma needs semicolons or tabs "
        "between cells, or quotes)",
        cells.size(),
        layout_.cells);
  }
  if (auto problem = read_time(cells, row)) {
    return problem;
  }
  const auto number_at = [&](std::size_t index) {
    return index < cells.size() ? parse_cell_number(cells[index]) : std::nullopt;
  };
  const auto cell_at = [&](std::size_t index) {
    return index < cells.size() ? cells[index] : std::string_view();
  };
  const auto temperature = number_at(layout_.temperature.index);
  const auto humidity = number_at(layout_.humidity.index);
  if (!temperature || temperature->unit == CellUnit::kPercent) {
    return problem_at("temperature", cell_at(layout_.temperature.index), "a number is needed");
  }
  if (!humidity || is_other_unit(humidity->unit, CellUnit::kPercent)) {
    return problem_at("humidity", cell_at(layout_.humidity.index), "a number is needed");
  }
  row.temperature = temperature->value;
  row.unit = temperature->unit;
  row.humidity = humidity->value;
  decimal_commas_ = decimal_commas_ || temperature->decimal_comma || humidity->decimal_comma;
  percent_in_cells_ = percent_in_cells_ || humidity->unit == CellUnit::kPercent;
  return std::nullopt;
}

}  // namespace coatwright
