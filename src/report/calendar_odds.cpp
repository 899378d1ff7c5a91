#include "report/calendar_odds.h"

#include <algorithm>

#include <fmt/format.h>

#include "report/wrap.h"

namespace coatwright {
namespace {

constexpr std::size_t kChanceWidth = 12;

std::string line(double chance, const std::string& text) {
  return wrap(
      text, padded("  " + chance_text(chance), kChanceWidth), std::string(kChanceWidth, ' '));
}

}  // namespace

std::string calendar_odds(const PlanView& view) {
  if (!view.plan.odds) {
    return "";
  }
  const PlanOdds& odds = *view.plan.odds;
  std::string text = "\n" + underlined("Odds", '-');
  text += wrap(fmt::format("{} trials, seed {}; each chance is known to {:.1f} % either way. Coats "
                           "dry faster or slower within their ranges, the air as expected.",
                           odds.trials,
                           odds.seed,
                           odds.half_width * 100.0),
               0,
               0);
  for (const StepOdds& one : odds.steps) {
    const auto step = std::find_if(view.plan.steps.begin(),
                                   view.plan.steps.end(),
                                   [&](const PlanStep& each) { return each.id == one.step; });
    text += line(one.chance,
                 fmt::format("{} {}",
                             moment_text(shown_minute(step->start), view.plan.from, view.zone),
                             sentence_of(view.plan, *step)));
  }
  text += line(odds.as_printed, "every step holds at its time");
  if (view.plan.pieces.size() <= 1) {
    return text + line(odds.by_date, "it ends by its date when each step waits until it is ready");
  }
  text += "When each step waits until it is ready:\n";
  for (const PieceOdds& one : odds.pieces) {
    text += line(one.chance, one.piece + " ends by its date");
  }
  text += line(odds.by_date, "all end by their dates");
  return text;
}

}  // namespace coatwright
