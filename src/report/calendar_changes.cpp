#include "report/calendar_changes.h"

#include <fmt/format.h>

#include "base/quantity_text.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

/// "1 h 20 min later".
std::string shift_text(Time was, Time is) {
  return show_duration(std::chrono::abs(is - was)) + (is > was ? " later" : " earlier");
}

std::string finish_text(const PlanChanges& changes, const PlanView& view) {
  const auto& is = view.plan.finish;
  const auto& was = changes.finish_was;
  if (was && is && shown_minute(*was) != shown_minute(*is)) {
    return fmt::format("Ends {} instead of {}: {}.",
                       show_full(shown_minute(*is), view.zone),
                       moment_text(shown_minute(*was), *is, view.zone),
                       shift_text(shown_minute(*was), shown_minute(*is)));
  }
  if (was && !is) {
    return "Not every step has its place any more.";
  }
  return !was && is ? "Every step has its place now." : "";
}

std::string change_text(const PlanChange& change, const PlanView& view) {
  PlanStep step;
  step.kind = change.kind;
  step.piece = change.piece;
  step.part = change.part.empty() ? "all" : change.part;
  step.face = change.face;
  step.product_title = change.product_title;
  step.coat = change.coat;
  step.grit = change.grit;
  const std::string sentence = sentence_of(view.plan, step);
  const auto moment = [&](Time time) {
    return moment_text(shown_minute(time), view.plan.from, view.zone);
  };
  if (!change.is) {
    return fmt::format("{}: no longer, was {}", sentence, moment(*change.was));
  }
  if (!change.was) {
    return fmt::format("{}: new, {}", sentence, moment(*change.is));
  }
  return fmt::format("{}: {} instead of {}, {}",
                     sentence,
                     moment(*change.is),
                     moment(*change.was),
                     shift_text(*change.was, *change.is));
}

}  // namespace

bool is_of_log(const PlanWarning& warning) {
  return warning.code == "log";
}

std::string calendar_log_warnings(const PlanView& view) {
  std::string text;
  for (const PlanWarning& warning : view.plan.warnings) {
    text += is_of_log(warning) ? wrap(warning.text, "! ", "  ") : "";
  }
  return text.empty() ? "" : "\n" + text;
}

std::string calendar_changes(const PlanView& view) {
  if (!view.plan.changes) {
    return "";
  }
  const PlanChanges& changes = *view.plan.changes;
  const std::string since = show_full(changes.since, view.zone);
  const std::string finish = finish_text(changes, view);
  if (finish.empty() && changes.steps.empty() && changes.new_recipes.empty()) {
    return "\n" + wrap("Nothing moved since the plan of " + since + ".", 0, 0);
  }
  std::string text = "\n" + underlined("What moved since the plan of " + since, '-');
  text += finish.empty() ? "" : wrap(finish, 0, 0);
  for (const std::string& title : changes.new_recipes) {
    text += wrap(
        fmt::format("The recipe of {} is another one now; coats logged before keep theirs.", title),
        "! ",
        "  ");
  }
  for (const PlanChange& change : changes.steps) {
    text += wrap(change_text(change, view), "- ", "  ");
  }
  return text;
}

}  // namespace coatwright
