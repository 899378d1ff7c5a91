#pragma once

#include <fstream>
#include <map>
#include <optional>
#include <sstream>
#include <string>
#include <vector>

namespace coatwright::test {

using TableRow = std::map<std::string, std::string>;

inline std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells;
  std::istringstream stream(line);
  for (std::string cell; std::getline(stream, cell, ',');) {
    cells.push_back(cell);
  }
  return cells;
}

/// Reads a table of the reference folder that may lie beside the repository.
/// @return its rows by column name, or nothing where the folder is absent.
inline std::optional<std::vector<TableRow>> reference_table(const std::string& name) {
  std::ifstream file(std::string(COATWRIGHT_SOURCE_DIR "/../shared/references/") + name);
  std::string line;
  if (!std::getline(file, line)) {
    return std::nullopt;
  }
  const auto names = cells_of(line);
  std::vector<TableRow> rows;
  while (std::getline(file, line)) {
    const auto cells = cells_of(line);
    TableRow row;
    for (std::size_t i = 0; i < names.size() && i < cells.size(); ++i) {
      row[names[i]] = cells[i];
    }
    rows.push_back(row);
  }
  return rows;
}

}  // namespace coatwright::test
