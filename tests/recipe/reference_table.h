#pragma once

#include <fstream>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

/// Tables of figures that may lie beside the repository.
namespace coatwright::test {

/// The cells of one line, where a quoted cell may hold commas.
inline std::vector<std::string> quoted_cells_of(const std::string& line) {
  std::vector<std::string> cells(1);
  bool quoted = false;
  for (const char c : line) {
    if (c == '"') {
      quoted = !quoted;
    } else if (c == ',' && !quoted) {
      cells.emplace_back();
    } else if (c != '\r') {
      cells.back() += c;
    }
  }
  return cells;
}

/// All lines of a table but its head; empty where it is not present.
inline std::vector<std::vector<std::string>> table(const std::string& file) {
  std::ifstream stream(COATWRIGHT_SOURCE_DIR "/../shared/references/" + file);
  std::vector<std::vector<std::string>> rows;
  std::string line;
  std::getline(stream, line);
  while (std::getline(stream, line)) {
    rows.push_back(quoted_cells_of(line));
  }
  if (rows.empty()) {
    WARN("skipped: the table " << file << " is not present");
  }
  return rows;
}

}  // namespace coatwright::test
