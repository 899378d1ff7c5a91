#include "print/table_strips.h"

#include <algorithm>

#include "print/fills.h"

namespace coatwright {
namespace {

constexpr double kPadX = 3.5;
constexpr double kPadY = 2.5;
constexpr double kRule = 0.6;
constexpr double kTableSpace = 6.0;
constexpr double kRoomy = 24.0;  // 8.5 mm, to write in by hand (judgement)

/// Where the columns begin, and where the last one ends, from the line's left.
std::vector<double> column_edges(const SheetTable& table, double width) {
  const double tick = table.tick ? points_of(table.size) + 2 * kPadX : 0.0;
  std::size_t count = std::max(table.heads.size(), table.widths.size());
  for (const auto& row : table.rows) {
    count = std::max(count, row.size());
  }
  double sum = 0;
  for (std::size_t i = 0; i < count; ++i) {
    sum += i < table.widths.size() ? table.widths[i] : 1.0 / static_cast<double>(count);
  }
  std::vector<double> edges = {tick};
  for (std::size_t i = 0; i < count; ++i) {
    const double share =
        i < table.widths.size() ? table.widths[i] : 1.0 / static_cast<double>(count);
    edges.push_back(edges.back() + share / sum * (width - tick));
  }
  return edges;
}

/// A row laid out: its cells, and how it is framed.
struct Row {
  std::vector<Lettering> cells;
  std::vector<double> edges;  // the first one lies behind the box to tick
  double tick = 0;            // side of the box to tick; 0: none
  bool ruled = true;
  bool head = false;
  double least = 0;  // height

  [[nodiscard]] std::size_t lines() const {
    std::size_t most = 1;
    for (const Lettering& cell : cells) {
      most = std::max(most, cell.lines());
    }
    return most;
  }
  /// Of the lines in a slice, with what is above and below them.
  [[nodiscard]] double height(std::size_t first, std::size_t count) const {
    double most = 0;
    for (const Lettering& cell : cells) {
      most = std::max(most, cell.height_of_lines(first, count));
    }
    most += first == 0 ? kPadY : 0.0;
    most += first + count >= lines() ? kPadY : 0.0;
    return std::max(most, first == 0 ? least : 0.0);
  }
};

void draw_rules(cairo_t* paper, const Row& row, const PaperArea& area, bool begins, bool ends) {
  const auto& [x, y, width, height] = area;
  const double right = x + width;
  if (row.ruled) {
    draw_line(paper, x, y, x, y + height, kRule);
    for (const double edge : row.edges) {
      if (edge > 0) {
        draw_line(paper, x + edge, y, x + edge, y + height, kRule);
      }
    }
    if (begins) {
      draw_line(paper, x, y, right, y, kRule);
    }
    if (ends) {
      draw_line(paper, x, y + height, right, y + height, row.head ? 1.2 : kRule);
    }
  } else if (row.head) {
    draw_line(paper, x, y + height, right, y + height, kRule);
  }
}

Strip slice(const Row& row, std::size_t first, std::size_t count) {
  Strip strip;
  strip.height = row.height(first, count);
  strip.draw = [row, first, count, height = strip.height](cairo_t* paper, double x, double y) {
    draw_rules(
        paper, row, {x, y, row.edges.back(), height}, first == 0, first + count >= row.lines());
    if (row.tick > 0 && first == 0) {
      draw_tick_box(paper, x + kPadX, y + kPadY + 1.0, row.tick);
    }
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
      const double top = y + (first == 0 ? kPadY : 0.0);
      row.cells[i].draw_lines(paper, x + row.edges[i] + kPadX, top, first, count);
    }
  };
  return strip;
}

/// As many lines as fit into a height, one at least.
std::size_t lines_that_fit(const Row& row, std::size_t first, double height) {
  std::size_t count = 1;
  while (first + count < row.lines() && row.height(first, count + 1) <= height) {
    ++count;
  }
  return count;
}

std::vector<Strip> slices_of(const Row& row, double page_height) {
  constexpr double kMostOfPage = 1.0 / 2.0;
  constexpr double kSliceOfPage = 1.0 / 8.0;
  if (row.height(0, row.lines()) <= page_height * kMostOfPage) {
    return {slice(row, 0, row.lines())};
  }
  const double most = page_height * kSliceOfPage;
  std::vector<Strip> strips;
  for (std::size_t first = 0; first < row.lines();) {
    const std::size_t count = lines_that_fit(row, first, most);
    strips.push_back(slice(row, first, count));
    first += count;
  }
  return strips;
}

Row row_of(const std::vector<std::string>& texts,
           const SheetTable& table,
           const std::vector<double>& edges,
           cairo_t* paper,
           bool head) {
  Row row;
  row.edges = edges;
  row.ruled = table.ruled;
  row.head = head;
  const double points = points_of(table.size);
  row.tick = table.tick && !head ? points * 0.85 : 0.0;
  row.least = table.roomy && !head ? kRoomy : 0.0;
  for (std::size_t i = 0; i + 1 < edges.size(); ++i) {
    const double width = edges[i + 1] - edges[i] - 2 * kPadX;
    row.cells.emplace_back(
        paper, i < texts.size() ? texts[i] : "", std::max(width, points), Style{points, head});
  }
  return row;
}

}  // namespace

std::vector<Strip> strips_of(const SheetTable& table, const Column& column) {
  const std::vector<double> edges = column_edges(table, column.width);
  std::vector<Strip> strips;
  std::shared_ptr<const Strip> head;
  if (!table.heads.empty()) {
    const Row row = row_of(table.heads, table, edges, column.paper, true);
    strips.push_back(slice(row, 0, row.lines()));
    strips.back().with_next = true;
    head = std::make_shared<const Strip>(strips.back());
  }
  for (const auto& texts : table.rows) {
    for (Strip& strip :
         slices_of(row_of(texts, table, edges, column.paper, false), column.height)) {
      strip.head = head;
      strips.push_back(std::move(strip));
    }
  }
  if (!strips.empty()) {
    strips.front().space = kTableSpace;
  }
  return strips;
}

}  // namespace coatwright
