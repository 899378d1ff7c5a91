#include "report/calendar_head.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/quantity_text.h"
#include "report/shop_hours.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

constexpr std::size_t kLabelWidth = 12;

std::string field(std::string_view label, std::string_view text) {
  return wrap(text, padded(label, kLabelWidth), std::string(kLabelWidth, ' '));
}

std::string area_text(const PlanPiece& piece, UnitSystem units) {
  std::string text = show_area(piece.area, units);
  if (piece.faces > 1) {
    text += fmt::format(" a face, {} faces", piece.faces);
    text += piece.on_points ? " in one session (on points or hung)" : ", one after the other";
  }
  return text;
}

std::string piece_fields(const PlanPiece& piece, const PlanView& view) {
  std::string text;
  if (view.plan.pieces.size() > 1) {
    text += "\n" + field("Piece", piece.name);
  }
  text += field("Wood", piece.species);
  text += field("Schedule", piece.schedule);
  text += field("Area", area_text(piece, view.units));
  if (piece.due && *piece.due != view.plan.by) {
    text += field("Due", show_full(*piece.due, view.zone));
  }
  if (view.plan.pieces.size() > 1 && piece.finish) {
    text += field("Ends", show_full(shown_minute(*piece.finish), view.zone));
  }
  return text;
}

/// Coats that are on are not yet a piece that can go out: the head says when it may be handled.
std::string handling(const PlanView& view) {
  std::string text;
  for (const Milestone& milestone : view.plan.milestones) {
    if (milestone.stage == "handle" && milestone.at > view.plan.by) {
      text += wrap(fmt::format("The last coat is on by then, but the piece is not to be handled "
                               "before {}, by calculation only.",
                               show_full(shown_minute(milestone.at), view.zone)),
                   0,
                   0);
    }
  }
  return text;
}

std::string verdict(const PlanView& view) {
  const Plan& plan = view.plan;
  if (plan.steps.empty()) {
    return "Nothing is planned: no step has a place.";
  }
  if (!plan.complete || !plan.finish) {
    return "Does not fit: not every step has its place. The plan stops at what holds it up; see "
           "the end of this page.";
  }
  const std::string end = show_full(shown_minute(*plan.finish), view.zone);
  if (!plan.fits) {
    return fmt::format(
        "Does not fit: ends {} after the date, {}.", show_duration(*plan.finish - plan.by), end);
  }
  if (plan.finish == plan.by) {
    return fmt::format("Ends {}, at the date itself.", end);
  }
  return fmt::format("Ends {}, {} before the date.", end, show_duration(plan.by - *plan.finish));
}

std::string chance_field(const Plan& plan) {
  return field(
      "Chance",
      fmt::format("{} that it ends by its date; each wait is taken at {:.0f} % confidence.",
                  chance_text(plan.chance),
                  plan.confidence * 100.0));
}

std::string bound_field(const PlanView& view) {
  const Plan& plan = view.plan;
  if (!plan.bound) {
    return field("Bound", "None is known: it is open whether another plan could end sooner.");
  }
  std::string text = fmt::format("No plan can end before {}", show_full(*plan.bound, view.zone));
  if (plan.finish && *plan.finish > *plan.bound) {
    text += fmt::format("; this one ends {} after that", show_duration(*plan.finish - *plan.bound));
  } else if (plan.finish) {
    text += "; this one reaches it";
  }
  if (plan.search.stopped_by == "clock") {
    text += ". The search was stopped by the clock, so another run may differ";
  }
  return field("Bound", text + ".");
}

std::string title(const Plan& plan) {
  std::string text;
  for (const PlanPiece& piece : plan.pieces) {
    text += (text.empty() ? "" : ", ") + piece.name;
  }
  return text.empty() ? "Plan" : text;
}

}  // namespace

std::string calendar_head(const PlanView& view) {
  const Plan& plan = view.plan;
  std::string text = underlined(title(plan), '=') + wrap(verdict(view), 0, 0) + handling(view);
  text += plan.pieces.size() > 1 ? "" : "\n";
  for (const PlanPiece& piece : plan.pieces) {
    text += piece_fields(piece, view);
  }
  text += plan.pieces.size() > 1 ? "\n" : "";
  text += field("From", show_full(plan.from, view.zone));
  text += field("Date", fmt::format("{} ({})", show_full(plan.by, view.zone), view.zone.name()));
  const Time last = std::max(plan.by, plan.finish.value_or(plan.by));
  if (const auto hours = shop_hours_text(plan.hours, last, view.zone); !hours.empty()) {
    text += field("Shop hours", hours);
  }
  if (plan.complete) {
    text += chance_field(plan) + bound_field(view);
  }
  return text;
}

}  // namespace coatwright
