#pragma once

#include <fstream>
#include <map>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace coatwright::test {

/// One row of a table in tests/data, by column name.
class DataRow {
 public:
  explicit DataRow(std::map<std::string, std::string> cells) : cells_(std::move(cells)) {}
  [[nodiscard]] const std::string& text(const std::string& column) const {
    return cells_.at(column);
  }
  [[nodiscard]] double number(const std::string& column) const { return std::stod(text(column)); }

 private:
  std::map<std::string, std::string> cells_;
};

inline std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells;
  std::istringstream stream(line);
  for (std::string cell; std::getline(stream, cell, ',');) {
    cells.push_back(cell);
  }
  return cells;
}

/// Reads a table of tests/data; lines that begin with # say where it is from.
inline std::vector<DataRow> data_table(const std::string& name) {
  std::ifstream file(std::string(COATWRIGHT_SOURCE_DIR "/tests/data/") + name);
  std::vector<std::string> names;
  std::vector<DataRow> rows;
  for (std::string line; std::getline(file, line);) {
    if (line.starts_with('#')) {
      continue;
    }
    const auto cells = cells_of(line);
    if (names.empty()) {
      names = cells;
      continue;
    }
    std::map<std::string, std::string> row;
    for (std::size_t i = 0; i < names.size(); ++i) {
      row[names[i]] = cells.at(i);
    }
    rows.emplace_back(std::move(row));
  }
  if (rows.empty()) {
    throw std::runtime_error("tests/data/" + name + " has no rows");
  }
  return rows;
}

}  // namespace coatwright::test
