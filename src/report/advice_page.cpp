#include "report/advice_page.h"

#include <algorithm>

#include <fmt/format.h>

#include "report/change_words.h"
#include "report/text_table.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

using std::chrono::seconds;

// Source: as the calendar's cautions; [osha_1910_107] sources of ignition.
constexpr std::string_view kIgnitionCaution =
    "Solvent vapour ignites: warm the shop with nothing that burns, glows or sparks where vapour "
    "can reach: no open flame, pilot light, stove, radiant heater or fan that is not rated for it. "
    "Warm room, piece and can before the can is opened, keep the exhaust running, and bring no "
    "heater in while a film dries. A flame without a flue also makes the air damp.";

std::string section(std::string_view heading, const std::string& body) {
  return body.empty() ? "" : "\n" + underlined(heading, '-') + body;
}

bool is_plural(const PlanView& view) {
  return view.plan.pieces.size() > 1;
}

std::string dates(const PlanView& view) {
  return is_plural(view) ? "dates" : "date";
}

std::string title(const Plan& plan) {
  std::string text;
  for (const PlanPiece& piece : plan.pieces) {
    text += (text.empty() ? "" : ", ") + piece.name;
  }
  return "The date of " + text;
}

std::string late_line(const LaterDate& late, const PlanView& view) {
  if (!late.finish) {
    return late.piece + ": not every step has its place";
  }
  const Time end = shown_minute(*late.finish);
  if (!late.due) {
    return fmt::format("{} ends {}", late.piece, show_full(end, view.zone));
  }
  return fmt::format("{} ends {}, {} after its date, {}",
                     late.piece,
                     show_full(end, view.zone),
                     show_duration(end - *late.due),
                     show_full(*late.due, view.zone));
}

std::string standing(const DateAdvice& advice, const PlanView& view) {
  std::string text;
  if (advice.plan.fits) {
    text = wrap(fmt::format("The {} can be met: ends {}, {} before {}; chance {}.",
                            dates(view),
                            show_full(shown_minute(*advice.plan.finish), view.zone),
                            show_duration(advice.plan.by - *advice.plan.finish),
                            show_full(advice.plan.by, view.zone),
                            chance_text(advice.plan.chance)),
                0,
                0);
    if (advice.latest_start) {
      text += wrap(fmt::format("Work may begin as late as {}, and {} hold{}.",
                               show_full(*advice.latest_start, view.zone),
                               is_plural(view) ? "all dates still" : "the date still",
                               is_plural(view) ? "" : "s"),
                   0,
                   0);
    }
    return text;
  }
  text = wrap(fmt::format("The {} cannot be met as it stands.", dates(view)), 0, 0);
  for (const LaterDate& late : advice.late) {
    text += wrap(late_line(late, view) + ".", "- ", "  ");
  }
  if (!advice.plan.complete && !advice.plan.hold_ups.empty()) {
    text += wrap("What stops it: " + as_sentence(advice.plan.hold_ups.front().text), 0, 0);
  }
  return text;
}

std::string ending(const Way& way, const PlanView& view) {
  const Time end = shown_minute(*way.plan.finish);
  if (is_plural(view)) {
    return fmt::format("Then every piece is in time, the last at {}; chance {}.",
                       show_full(end, view.zone),
                       chance_text(way.plan.chance));
  }
  return fmt::format("Ends {}, {} before the date; chance {}.",
                     show_full(end, view.zone),
                     show_duration(way.plan.by - end),
                     chance_text(way.plan.chance));
}

std::string way_text(const Way& way, std::size_t number, const PlanView& view) {
  std::string orders;
  std::string prices;
  for (const Change& change : way.changes) {
    const std::string order = order_of(change, view);
    orders += orders.empty() ? order : ", and also: " + lower_first(order);
    const std::string price = price_of(change, way, view);
    prices += price.empty() || prices.find(price) != std::string::npos ? "" : price + " ";
  }
  return wrap(orders + ".", padded(fmt::format("{}", number), 3), "   ") +
         (prices.empty() ? "" : wrap(prices, 5, 5)) + wrap(ending(way, view), 5, 5);
}

bool warms(const Change& change) {
  return change.kind == ChangeKind::kWarmer;
}

std::string ways_text(const DateAdvice& advice, const PlanView& view) {
  std::string text;
  std::size_t number = 0;
  for (const Way& way : advice.ways) {
    text += way_text(way, ++number, view);
  }
  if (text.empty() && !advice.plan.fits) {
    text =
        wrap(advice.stopped ? "None was found before the search was stopped."
                            : "None: no single change of those tried makes it, nor two together.",
             0,
             0);
  }
  return text;
}

std::string in_vain_text(const DateAdvice& advice, const PlanView& view) {
  std::string text;
  for (const InVain& one : advice.in_vain) {
    const std::string end =
        one.finish ? "ends " + show_full(shown_minute(*one.finish), view.zone) + " at best"
                   : std::string("not every step finds its place");
    text += wrap(change_words(one.best, view) + ": " + end, "- ", "  ");
  }
  return text;
}

std::string later_text(const DateAdvice& advice, const PlanView& view) {
  std::string text;
  for (const LaterDate& late : advice.late) {
    if (late.finish) {
      text += wrap(fmt::format("{}: {} (each wait taken at {:.0f} % confidence).",
                               late.piece,
                               show_full(shown_minute(*late.finish), view.zone),
                               view.plan.confidence * 100.0),
                   "- ",
                   "  ");
    }
  }
  return text;
}

std::string shift_text(seconds earlier) {
  if (earlier == seconds(0)) {
    return "no sooner";
  }
  return earlier > seconds(0) ? show_duration(earlier) + " sooner"
                              : show_duration(-earlier) + " later";
}

std::string gains_text(const DateAdvice& advice, const PlanView& view) {
  constexpr std::size_t kMostWords = 38;
  TextTable table({{"one thing more", {}}, {"ends", {}}, {"that is", {}}});
  for (const Gain& gain : advice.gains) {
    table.add({shortened(change_words(gain.change, view), kMostWords),
               gain.finish ? short_moment(shown_minute(*gain.finish), view.zone) : "-",
               gain.finish && view.plan.finish ? shift_text(gain.earlier) : "-"});
  }
  const bool any_ends = std::any_of(advice.gains.begin(), advice.gains.end(), [](const Gain& gain) {
    return gain.finish.has_value();
  });
  return any_ends ? table.text(2) : "";
}

std::string ignition_text(const DateAdvice& advice) {
  const bool in_ways = std::any_of(advice.ways.begin(), advice.ways.end(), [](const Way& way) {
    return std::any_of(way.changes.begin(), way.changes.end(), warms);
  });
  const bool in_gains = std::any_of(advice.gains.begin(), advice.gains.end(), [](const Gain& gain) {
    return warms(gain.change);
  });
  const bool in_vain = std::any_of(advice.in_vain.begin(),
                                   advice.in_vain.end(),
                                   [](const InVain& one) { return warms(one.best); });
  return in_ways || in_gains || in_vain ? "\n" + wrap(kIgnitionCaution, "! ", "  ") : "";
}

}  // namespace

std::string show_advice(const DateAdvice& advice, const Zone& zone, UnitSystem units) {
  const PlanView view{advice.plan, zone, units};
  const std::string stopped =
      advice.stopped ? "\nThe search was stopped early: there may be more ways.\n" : "";
  return underlined(title(advice.plan), '=') + standing(advice, view) +
         section(fmt::format("Ways to make the {}, the least change first", dates(view)),
                 ways_text(advice, view)) +
         section("What does not do it alone", in_vain_text(advice, view)) +
         section(advice.late.size() > 1 ? "Or later dates" : "Or a later date",
                 later_text(advice, view)) +
         section("What a little more buys", gains_text(advice, view)) + ignition_text(advice) +
         stopped +
         "\nEach line is a plan made anew. Times are calculated from class ranges: label\n"
         "and data sheet come first.\n";
}

}  // namespace coatwright
