#pragma once

#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "base/time.h"

/// A sheet of paper as a list of blocks, without a place on the page yet: what a page says, apart
/// from how it is printed. report/sheet_html.h writes it as HTML, the room print/ as PDF. It is
/// printed in black on white: nothing is told by colour.
namespace coatwright {

enum class PaperSize { kA4, kLetter };

enum class SheetSize {
  kBig,    ///< Read from two metres.
  kLarge,  ///< Read from one.
  kBody,
  kSmall,
};

/// The next size below; kSmall stays.
[[nodiscard]] constexpr SheetSize one_smaller(SheetSize size) {
  return size == SheetSize::kSmall ? size : static_cast<SheetSize>(static_cast<int>(size) + 1);
}

/// A heading of a part of the sheet; it is never the last thing on a page, nor is a text right
/// beneath it that introduces what follows.
struct SheetHeading {
  std::string text;
};

struct SheetText {
  std::string text;
  SheetSize size = SheetSize::kBody;
  bool bold = false;
};

/// What must not be overlooked, framed; stays on one page.
struct SheetBox {
  std::string title;  ///< Bold, in the box's size; may be empty.
  std::string text;   ///< One size smaller where there is a title; may be empty.
  SheetSize size = SheetSize::kBig;
};

/// Items under each other, with a dash or with a box to tick.
struct SheetList {
  std::vector<std::string> items;
  bool tick = false;
  SheetSize size = SheetSize::kBody;
};

/// Rows of cells; the heads stand again on each page.
struct SheetTable {
  std::vector<std::string> heads;
  std::vector<double> widths;  ///< Of each column, as a share of the line's width; they sum to 1.
  std::vector<std::vector<std::string>> rows;
  bool ruled = true;  ///< Lines around the cells, so that empty ones can be filled in by hand.
  bool tick = false;  ///< Each row begins with a box to tick.
  SheetSize size = SheetSize::kBody;
  bool roomy = false;  ///< Rows are high enough to write in by hand.
};

/// How a bar of a chart is filled, so that it can be told from others without colour.
enum class ChartFill { kSolid, kOpen, kHatched, kDotted, kLine };

/// A stretch of time in a row, by shares of the chart's width, 0 to 1.
struct ChartBar {
  double from = 0;
  double to = 0;
  ChartFill fill = ChartFill::kSolid;
  std::string label;  ///< Printed above it where it fits; may be empty.
};

struct ChartRow {
  std::string label;
  std::vector<ChartBar> bars;  ///< The later over the earlier.
};

/// A tick of the axis of time.
struct ChartTick {
  double at = 0;
  std::string label;    ///< May be empty.
  bool strong = false;  ///< Begins a day.
};

/// Rows over a common axis of time; stays on one page, or is parted between rows.
struct SheetChart {
  std::vector<ChartTick> ticks;
  std::vector<ChartRow> rows;
  std::vector<ChartBar> closed;  ///< When nobody is there: behind all rows, kHatched or kDotted.
  std::vector<std::pair<ChartFill, std::string>> legend;
  std::string closed_label;  ///< What the shading behind the rows says, for the legend.
};

struct SheetPageBreak {};

using SheetBlock = std::
    variant<SheetHeading, SheetText, SheetBox, SheetList, SheetTable, SheetChart, SheetPageBreak>;

struct Sheet {
  std::string title;     ///< On every page, large.
  std::string subtitle;  ///< Beside or below it, on every page; may be empty.
  std::string foot;      ///< At the foot of every page; may be empty.
  std::string subject;   ///< For the document's metadata.
  Time made_at;          ///< For the metadata, and so that the same input gives the same bytes.
  bool landscape = false;
  std::vector<SheetBlock> blocks;
};

}  // namespace coatwright
