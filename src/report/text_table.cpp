#include "report/text_table.h"

#include <algorithm>

#include "report/wrap.h"

namespace coatwright {

void TextTable::add(std::vector<std::string> cells) {
  cells.resize(columns_.size());
  rows_.push_back(std::move(cells));
}

std::vector<std::size_t> TextTable::widths() const {
  std::vector<std::size_t> widths;
  for (std::size_t i = 0; i < columns_.size(); ++i) {
    std::size_t width = columns_of(columns_[i].heading);
    for (const auto& row : rows_) {
      width = std::max(width, columns_of(row[i]));
    }
    widths.push_back(width);
  }
  return widths;
}

std::string TextTable::line(const std::vector<std::string>& cells,
                            const std::vector<std::size_t>& widths,
                            std::size_t indent) const {
  std::string text(indent, ' ');
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const std::string padding(widths[i] - columns_of(cells[i]), ' ');
    text += i > 0 ? "  " : "";
    text += columns_[i].align == Align::kLeft ? cells[i] + padding : padding + cells[i];
  }
  text.erase(text.find_last_not_of(' ') + 1);
  return text + "\n";
}

std::string TextTable::text(std::size_t indent) const {
  const auto column_widths = widths();
  std::vector<std::string> headings;
  for (const Column& column : columns_) {
    headings.push_back(column.heading);
  }
  std::string whole = line(headings, column_widths, indent);
  for (const auto& row : rows_) {
    whole += line(row, column_widths, indent);
  }
  return whole;
}

}  // namespace coatwright
