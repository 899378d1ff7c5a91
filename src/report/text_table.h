#pragma once

#include <string>
#include <vector>

namespace coatwright {

/// Lays rows out in columns as wide as their widest cell, two blanks apart.
class TextTable {
 public:
  enum class Align { kLeft, kRight };
  struct Column {
    std::string heading;
    Align align = Align::kLeft;
  };

  explicit TextTable(std::vector<Column> columns) : columns_(std::move(columns)) {}

  /// @param cells one per column; missing ones at the end are empty.
  void add(std::vector<std::string> cells);
  /// @param indent blanks before each line. @return the lines, headings first; no blanks at line
  /// ends.
  [[nodiscard]] std::string text(std::size_t indent = 0) const;

 private:
  [[nodiscard]] std::vector<std::size_t> widths() const;
  [[nodiscard]] std::string line(const std::vector<std::string>& cells,
                                 const std::vector<std::size_t>& widths,
                                 std::size_t indent) const;

  std::vector<Column> columns_;
  std::vector<std::vector<std::string>> rows_;
};

}  // namespace coatwright
