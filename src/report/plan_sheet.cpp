#include "report/plan_sheet.h"

#include <algorithm>
#include <map>
#include <optional>
#include <set>

#include <date/date.h>
#include <fmt/format.h>

#include "base/quantity_text.h"
#include "report/air_range.h"
#include "report/calendar_changes.h"
#include "report/calendar_foot.h"
#include "report/calendar_head.h"
#include "report/plan_chart.h"
#include "report/room_words.h"
#include "report/shop_hours.h"
#include "report/step_lines.h"

namespace coatwright {
namespace {

constexpr const char* kFoot =
    "Times are calculated from class ranges: label and data sheet come first. Test before you "
    "coat: "
    "touch the sample board first; if it is tacky, wait.";

/// Text under text, in one cell.
void add_line(std::string& cell, const std::string& line) {
  cell += (cell.empty() ? "" : "\n") + line;
}

SheetTable pieces_table(const PlanView& view) {
  SheetTable table;
  table.heads = {"Piece", "Wood", "Finishing schedule", "Area", "Due", "Ends", "Chance"};
  table.widths = {0.15, 0.12, 0.17, 0.16, 0.15, 0.15, 0.10};
  const auto moment = [&](const std::optional<Time>& time, const char* none) {
    return time ? show_full(shown_minute(*time), view.zone) : std::string(none);
  };
  for (const PlanPiece& piece : view.plan.pieces) {
    table.rows.push_back({piece.name,
                          piece.species,
                          piece.schedule,
                          area_of(piece, view.units),
                          moment(piece.due, "no date"),
                          moment(piece.finish, "no place"),
                          piece.chance && piece.due ? chance_text(*piece.chance) : ""});
  }
  return table;
}

void add_head(const PlanView& view, Sheet& sheet) {
  const Plan& plan = view.plan;
  sheet.blocks.emplace_back(SheetText{verdict_of(view), SheetSize::kBody, true});
  for (const std::string& sentence : handling_of(view)) {
    sheet.blocks.emplace_back(SheetText{sentence, SheetSize::kBody, true});
  }
  for (const PlanWarning& warning : plan.warnings) {
    if (is_of_log(warning)) {
      sheet.blocks.emplace_back(SheetText{"! " + warning.text});
    }
  }
  if (plan.complete) {
    sheet.blocks.emplace_back(SheetText{
        fmt::format("Chance: {} that {}; each wait is taken at {:.0f} % confidence.",
                    chance_text(plan.chance),
                    plan.pieces.size() > 1 ? "all end by their dates" : "it ends by its date",
                    plan.confidence * 100.0)});
  }
  if (!plan.pieces.empty()) {
    sheet.blocks.emplace_back(pieces_table(view));
  }
}

void add_charts(const PlanView& view, Sheet& sheet) {
  for (PlanChart& one : plan_charts(view)) {
    sheet.blocks.emplace_back(SheetHeading{std::move(one.heading)});
    sheet.blocks.emplace_back(std::move(one.chart));
  }
}

std::string people_of(const Plan& plan, const PlanStep& step) {
  if (!step.attended) {
    return "nobody needed";
  }
  std::string text = step.people > 1 ? "" : "1 person";
  if (const std::string uses = uses_of(plan, step); !uses.empty()) {
    text += (text.empty() ? "" : ", ") + uses;
  }
  return text;
}

/// The waits that end at a step or shortly before, each reason once.
void add_openings(const PlanView& view, const PlanStep& step, std::string& cell) {
  std::set<std::string> said;
  for (const Wait& wait : step.after) {
    const auto line = fmt::format("Not before {}, by calculation only: {}.",
                                  moment_text(shown_minute(wait.opens_at), step.start, view.zone),
                                  reason_of(view.plan, wait));
    if (said.insert(line).second) {
      add_line(cell, line);
    }
  }
}

/// Writes the tables of the days.
class DayTables {
 public:
  DayTables(const PlanView& view, Sheet& sheet) : view_(view), sheet_(sheet) {}

  void add(const PlanStep& step) {
    const auto day = date::floor<date::days>(view_.zone.to_local(step.start));
    if (day != day_) {
      put();
      begin(day, step.start);
    }
    table_.rows.push_back(
        {span_text(shown_minute(step.start), shown_minute(step.end), view_.zone),
         sentence_of(view_.plan, step) + hazards_mark(step) + (step.done ? " [done]" : ""),
         people_of(view_.plan, step),
         remarks(step)});
  }

  void put() {
    if (!table_.rows.empty()) {
      sheet_.blocks.emplace_back(std::move(table_));
    }
    table_ = SheetTable();
  }

 private:
  void begin(date::local_days day, Time time) {
    day_ = day;
    sheet_.blocks.emplace_back(SheetHeading{show_date(time, view_.zone)});
    std::string line;
    if (const auto hours = shop_hours_on_day(view_.plan.hours, time, view_.zone); !hours.empty()) {
      line = "Shop hours " + hours + ". ";
    }
    const Time midnight = view_.zone.to_time_leniently(LocalTime(day));
    const Time next = view_.zone.to_time_leniently(LocalTime(day + date::days(1)));
    if (const AirRange air = air_between(view_.plan, midnight, next); !air.empty()) {
      line += fmt::format("Air {} ({}).", air.text(view_.units), air.origins_text());
    }
    if (!line.empty()) {
      sheet_.blocks.emplace_back(SheetText{line});
    }
    table_.heads = {"When", "What", "Who, and where", "To mind"};
    table_.widths = {0.12, 0.29, 0.13, 0.46};
    table_.tick = true;
    table_.size = SheetSize::kSmall;
  }

  std::string remarks(const PlanStep& step) {
    std::string cell;
    if (!step.done) {
      add_openings(view_, step, cell);
      for (const std::string& line : closing_lines(view_, step)) {
        add_line(cell, line);
      }
      if (step.kind == StepKind::kApply) {
        add_line(cell, "Reckoned with: " + lower_first(air_line(view_, step)));
        if (const std::string vapour = vapour_line(view_.plan, step); !vapour.empty()) {
          add_line(cell, vapour);
        }
      }
    }
    for (const std::string& note : step.notes) {
      if (said_.emplace(note, "").second) {
        add_line(cell, note);
      }
    }
    add_cautions(step, cell);
    return cell;
  }

  /// Each in full on the day on which it first counts; later the day is named.
  void add_cautions(const PlanStep& step, std::string& cell) {
    const std::string today = show_date(step.start, view_.zone);
    std::vector<std::string> days;
    for (const std::string& caution : step.cautions) {
      const auto [said, is_new] = said_.emplace(caution, today);
      const std::string day = said->second == today ? "above" : "on " + said->second;
      if (is_new) {
        add_line(cell, "! " + caution);
      } else if (std::find(days.begin(), days.end(), day) == days.end()) {
        days.push_back(day);
      }
    }
    if (!days.empty()) {
      add_line(cell, fmt::format("! Cautions as {}.", fmt::join(days, ", ")));
    }
  }

  const PlanView& view_;
  Sheet& sheet_;
  std::optional<date::local_days> day_;
  SheetTable table_;
  std::map<std::string, std::string> said_;  // notes and cautions, and the day
};

void add_days(const PlanView& view, Sheet& sheet) {
  DayTables tables(view, sheet);
  const auto steps = steps_in_order(view.plan);
  for (const PlanStep* step : steps) {
    if (!is_told_by_gaps(*step, *steps.back())) {
      tables.add(*step);
    }
  }
  tables.put();
}

/// A heading and a table beneath it, where it has rows.
void add_table(Sheet& sheet, const char* heading, SheetTable table) {
  if (!table.rows.empty()) {
    sheet.blocks.emplace_back(SheetHeading{heading});
    sheet.blocks.emplace_back(std::move(table));
  }
}

void add_milestones(const PlanView& view, Sheet& sheet) {
  SheetTable table;
  table.heads = {"Not before, by calculation only; measure", "What"};
  table.widths = {0.35, 0.65};
  for (const Milestone* milestone : milestones_in_order(view.plan)) {
    table.rows.push_back(
        {show_full(shown_minute(milestone->at), view.zone), milestone_text(view, *milestone)});
  }
  add_table(sheet, "When it may be used", std::move(table));
}

void add_what_is_needed(const PlanView& view, Sheet& sheet) {
  SheetTable ready;
  ready.heads = {"At the latest", "What"};
  ready.widths = {0.25, 0.75};
  ready.tick = true;
  for (const PlanPreparation& one : view.plan.preparations) {
    ready.rows.push_back(
        {show_full(shown_minute(one.begin_by), view.zone), preparation_text(view, one)});
  }
  add_table(sheet, "Get ready", std::move(ready));
  SheetTable needed;
  needed.heads = {"How much", "Of what"};
  needed.widths = {0.25, 0.75};
  needed.tick = true;
  for (const PlannedQuantity& quantity : view.plan.quantities) {
    needed.rows.push_back({show_volume(quantity.amount, view.units), quantity_text(quantity)});
  }
  add_table(sheet, "What to have at hand", std::move(needed));
}

/// A heading and a list beneath it, where it has items.
void add_list(Sheet& sheet, const char* heading, std::vector<std::string> items) {
  if (!items.empty()) {
    sheet.blocks.emplace_back(SheetHeading{heading});
    sheet.blocks.emplace_back(SheetList{std::move(items)});
  }
}

void add_foot(const PlanView& view, Sheet& sheet) {
  std::vector<std::string> warnings;
  for (const PlanWarning& warning : view.plan.warnings) {
    if (!is_of_log(warning)) {
      warnings.push_back(warning.text);
    }
  }
  add_list(sheet, "The room's air", room_lines(view));
  add_list(sheet, "Warnings", std::move(warnings));
  std::vector<std::string> hold_ups;
  for (const HoldUp& one : view.plan.hold_ups) {
    const bool has_span = one.span > std::chrono::seconds(0);
    hold_ups.push_back(one.text + (has_span ? " (" + show_duration(one.span) + ")" : ""));
  }
  if (!view.plan.fits) {
    add_list(sheet, "What holds it up", std::move(hold_ups));
  }
}

}  // namespace

Sheet plan_sheet(const PlanView& view) {
  Sheet sheet;
  sheet.title = title_of(view.plan);
  sheet.subtitle = fmt::format("Plan from {} to {} ({}), made {}",
                               show_full(view.plan.from, view.zone),
                               show_full(view.plan.by, view.zone),
                               view.zone.name(),
                               show_full(view.plan.made_at, view.zone));
  sheet.foot = kFoot;
  sheet.subject = "Calendar of finishing: " + sheet.title;
  sheet.made_at = view.plan.made_at;
  sheet.landscape = true;
  add_head(view, sheet);
  add_charts(view, sheet);
  add_days(view, sheet);
  add_milestones(view, sheet);
  add_what_is_needed(view, sheet);
  add_foot(view, sheet);
  return sheet;
}

}  // namespace coatwright
