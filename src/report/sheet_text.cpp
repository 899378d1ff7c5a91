#include "report/sheet_text.h"

#include <algorithm>
#include <sstream>

#include "report/wrap.h"

namespace coatwright {
namespace {

constexpr std::string_view kTick = "[ ] ";
constexpr std::size_t kGap = 2;

/// The widest cell of a column, heads included.
std::size_t widest(const SheetTable& table, std::size_t column) {
  std::size_t width = column < table.heads.size() ? columns_of(table.heads[column]) : 0;
  for (const auto& row : table.rows) {
    width = std::max(width, column < row.size() ? columns_of(row[column]) : 0);
  }
  return width;
}

bool is_filled(const SheetTable& table, std::size_t column) {
  return std::any_of(table.rows.begin(), table.rows.end(), [&](const auto& row) {
    return column < row.size() && !row[column].empty();
  });
}

/// The columns that are printed, and how wide each is: what is left over goes to the widest.
struct Columns {
  std::vector<std::size_t> places;
  std::vector<std::size_t> widths;
};

Columns columns_to_print(const SheetTable& table) {
  Columns columns;
  std::size_t count = table.heads.size();
  for (const auto& row : table.rows) {
    count = std::max(count, row.size());
  }
  std::size_t sum = table.tick ? kTick.size() : 0;
  for (std::size_t i = 0; i < count; ++i) {
    if (is_filled(table, i)) {
      columns.places.push_back(i);
      columns.widths.push_back(widest(table, i));
      sum += columns.widths.back() + kGap;
    }
  }
  constexpr std::size_t kLeast = 8;
  while (sum > kPageWidth + kGap) {
    const auto most = std::max_element(columns.widths.begin(), columns.widths.end());
    if (*most <= kLeast) {
      break;
    }
    --*most;
    --sum;
  }
  return columns;
}

/// A cell's lines, each within the column.
std::vector<std::string> cell_lines(const std::string& cell, std::size_t width) {
  std::string text;
  std::istringstream paragraphs(cell);
  for (std::string paragraph; std::getline(paragraphs, paragraph);) {
    text += wrap(paragraph, "", "", width);
  }
  std::vector<std::string> lines;
  std::istringstream wrapped(text);
  for (std::string line; std::getline(wrapped, line);) {
    lines.push_back(line);
  }
  return lines;
}

std::string row_text(const std::vector<std::string>& row,
                     const Columns& columns,
                     std::string_view first) {
  std::vector<std::vector<std::string>> cells;
  std::size_t height = 0;
  for (std::size_t i = 0; i < columns.places.size(); ++i) {
    const std::size_t place = columns.places[i];
    cells.push_back(cell_lines(place < row.size() ? row[place] : "", columns.widths[i]));
    height = std::max(height, cells.back().size());
  }
  std::string text;
  for (std::size_t at = 0; at < height; ++at) {
    std::string line = at == 0 ? std::string(first) : std::string(first.size(), ' ');
    for (std::size_t i = 0; i < cells.size(); ++i) {
      line += padded(at < cells[i].size() ? cells[i][at] : "", columns.widths[i] + kGap);
    }
    line.erase(line.find_last_not_of(' ') + 1);
    text += line + "\n";
  }
  return text;
}

/// Writes the blocks one after the other.
struct TextWriter {
  std::string text;

  void operator()(const SheetHeading& heading) { text += "\n" + underlined(heading.text, '-'); }
  void operator()(const SheetText& one) { text += wrap(one.text, 0, 0); }
  void operator()(const SheetBox& box) {
    text += "\n";
    text += box.title.empty() ? "" : wrap(box.title, "! ", "  ");
    text += box.text.empty() ? "" : wrap(box.text, box.title.empty() ? "! " : "  ", "  ");
    text += "\n";
  }
  void operator()(const SheetList& list) {
    for (const std::string& item : list.items) {
      text += list.tick ? wrap(item, kTick, "    ") : wrap(item, "- ", "  ");
    }
  }
  void operator()(const SheetTable& table) {
    const Columns columns = columns_to_print(table);
    const std::string indent(table.tick ? kTick.size() : 0, ' ');
    text += table.heads.empty() ? "" : row_text(table.heads, columns, indent);
    for (const auto& row : table.rows) {
      text += row_text(row, columns, table.tick ? kTick : std::string_view());
    }
  }
  void operator()(const SheetChart& chart) {
    for (const ChartRow& row : chart.rows) {
      std::string bars;
      for (const ChartBar& bar : row.bars) {
        bars += bar.label.empty() ? "" : (bars.empty() ? "" : ", ") + bar.label;
      }
      text += wrap(bars, row.label + ": ", "    ");
    }
  }
  void operator()(const SheetPageBreak& /*unused*/) { text += "\n"; }
};

}  // namespace

std::string sheet_as_text(const Sheet& sheet) {
  TextWriter writer{underlined(sheet.title, '=') +
                    (sheet.subtitle.empty() ? "" : wrap(sheet.subtitle, 0, 0))};
  for (const SheetBlock& block : sheet.blocks) {
    std::visit(writer, block);
  }
  return writer.text + (sheet.foot.empty() ? "" : "\n" + wrap(sheet.foot, 0, 0));
}

}  // namespace coatwright
