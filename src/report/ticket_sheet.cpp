#include "report/ticket_sheet.h"

#include <fmt/format.h>

#include "report/plan_words.h"

namespace coatwright {
namespace {

SheetTable piece_table(const JobTicket& ticket, const Zone& zone) {
  SheetTable table;
  table.heads = {"Piece", "Wood", "Area", "Finishing schedule", "Due"};
  table.widths = {0.24, 0.16, 0.24, 0.18, 0.18};
  table.rows = {{ticket.piece,
                 ticket.species,
                 ticket.area,
                 ticket.schedule,
                 ticket.due ? show_full(*ticket.due, zone) : "no date"}};
  return table;
}

SheetTable steps_table(const JobTicket& ticket, const Zone& zone, UnitSystem units) {
  SheetTable table;
  table.heads = {"No.",
                 "Planned",
                 "Step",
                 "Product",
                 "Grit",
                 "Done, day and time",
                 units == UnitSystem::kUs ? "Air, F" : "Air, C",
                 "Air, %",
                 "Maker",
                 "Notes"};
  table.widths = {0.04, 0.11, 0.26, 0.14, 0.06, 0.11, 0.06, 0.06, 0.06, 0.10};
  table.tick = true;
  table.roomy = true;
  table.size = SheetSize::kSmall;
  int number = 0;
  for (const TicketStep& step : ticket.steps) {
    table.rows.push_back({fmt::format("{}", ++number),
                          step.at ? short_moment(shown_minute(*step.at), zone) : "",
                          step.note.empty() ? step.what : step.what + "\n" + step.note,
                          step.product,
                          step.grit,
                          "",
                          "",
                          "",
                          "",
                          ""});
  }
  return table;
}

}  // namespace

Sheet ticket_sheet(const JobTicket& ticket, const Zone& zone, UnitSystem units) {
  Sheet sheet;
  sheet.title = "Job ticket: " + ticket.piece;
  sheet.subtitle = ticket.planned_at
                       ? "Times by the plan of " + show_full(*ticket.planned_at, zone)
                       : "Not planned yet: the steps of its finishing schedule, without times";
  sheet.foot =
      "Planned times are calculated: label and data sheet come first. Touch the sample board "
      "before "
      "each coat; if it is tacky, wait. Measure the air, and write down what was really done.";
  sheet.subject = "Steps of finishing, to be ticked off";
  sheet.made_at = ticket.made_at;
  sheet.landscape = true;
  sheet.blocks.emplace_back(piece_table(ticket, zone));
  if (!ticket.cautions.empty()) {
    sheet.blocks.emplace_back(SheetHeading{"Mind"});
    sheet.blocks.emplace_back(SheetList{ticket.cautions});
  }
  sheet.blocks.emplace_back(SheetHeading{"Steps"});
  if (ticket.steps.empty()) {
    sheet.blocks.emplace_back(SheetText{"No step is left."});
  } else {
    sheet.blocks.emplace_back(steps_table(ticket, zone, units));
  }
  return sheet;
}

}  // namespace coatwright
