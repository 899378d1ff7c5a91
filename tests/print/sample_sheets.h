#pragma once

#include <string>

#include "report/sheet.h"

/// Sheets written by hand for an invented shop: one with each kind of block, and ones that are hard
/// to lay out.
namespace sample_sheets {

using namespace coatwright;

inline Time made_at() {
  return Time(std::chrono::seconds(1804262400));  // 2027-03-05T16:00:00Z
}

inline Sheet empty() {
  Sheet sheet;
  sheet.title = "Hall table";
  sheet.made_at = made_at();
  return sheet;
}

inline SheetChart chart(int rows) {
  SheetChart chart;
  chart.ticks = {{0.0, "Fri 5 March", true}, {0.25, "16:00"}, {0.5, "Sat 6 March", true}};
  for (int i = 0; i < rows; ++i) {
    chart.rows.push_back({"Part " + std::to_string(i + 1),
                          {{0.1, 0.2, ChartFill::kSolid, "coat 1"},
                           {0.2, 0.4, ChartFill::kLine, ""},
                           {0.4, 0.6, ChartFill::kDotted, ""},
                           {0.6, 0.7, ChartFill::kHatched, "sand"},
                           {0.8, 1.0, ChartFill::kOpen, "clamps"}}});
  }
  chart.closed = {{0.3, 0.5, ChartFill::kHatched, ""}};
  chart.legend = {{ChartFill::kSolid, "coat goes on"},
                  {ChartFill::kHatched, "other work"},
                  {ChartFill::kLine, "dries"},
                  {ChartFill::kDotted, "may be recoated"},
                  {ChartFill::kOpen, "in clamps"}};
  chart.closed_label = "nobody there";
  return chart;
}

inline Sheet of_every_block() {
  Sheet sheet = empty();
  sheet.subtitle = "Ines & Tobias, \"Larch and Lathe\" <bench 2>";
  sheet.foot = "Label and data sheet come first.";
  sheet.subject = "A sheet for tests";
  sheet.blocks = {SheetBox{"RAGS BURN", "Lay them flat outdoors.", SheetSize::kBig},
                  SheetHeading{"Before the first coat"},
                  SheetText{"Read the label.", SheetSize::kLarge, true},
                  SheetList{{"gloves on", "exhaust running"}, true},
                  SheetList{{"a plain item"}},
                  SheetHeading{"Hour by hour"},
                  chart(3),
                  SheetHeading{"Steps"},
                  SheetTable{{"When", "What"}, {0.3, 0.7}, {{"16:00", "Sand"}, {"17:00", ""}}},
                  SheetPageBreak{},
                  SheetText{"On the last page: 20 °C, 3 × 5 mm.", SheetSize::kSmall}};
  return sheet;
}

/// More rows than a page has, and cells with more than one line.
inline Sheet of_many_rows(int rows) {
  Sheet sheet = empty();
  SheetTable table{{"Number", "Remark"}, {0.2, 0.8}, {}};
  table.tick = true;
  for (int i = 0; i < rows; ++i) {
    std::string remark = "remark-" + std::to_string(i);
    for (int word = 0; word < i % 40; ++word) {
      remark += " word";
    }
    table.rows.push_back({"row-" + std::to_string(i), remark});
  }
  sheet.blocks = {SheetHeading{"Many"}, table};
  return sheet;
}

/// Words and cells that are longer than their line or their page.
inline Sheet of_long_words() {
  Sheet sheet = empty();
  std::string words;
  for (int i = 0; i < 900; ++i) {
    words += "w" + std::to_string(i) + " ";
  }
  sheet.title = "Sideboard " + std::string(60, 'M');
  sheet.blocks = {SheetBox{std::string(80, 'W'), words, SheetSize::kBig},
                  SheetText{std::string(300, 'x'), SheetSize::kBig},
                  SheetList{{std::string(200, 'y'), words}, true},
                  SheetTable{{"A", "B"}, {0.1, 0.9}, {{std::string(40, 'Q'), words}}},
                  chart(60)};
  return sheet;
}

}  // namespace sample_sheets
