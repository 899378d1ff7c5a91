#include "report/change_words.h"

#include <fmt/format.h>

#include "base/quantity_text.h"
#include "plan/advice.h"
#include "report/air_range.h"

namespace coatwright {
namespace {

std::string degrees(const Change& change, const PlanView& view) {
  return difference_text(TemperatureDifference::from_kelvin(change.amount), view.units);
}

std::string counted(int count, std::string_view one, std::string_view several) {
  return count == 1 ? fmt::format("one {}", one) : fmt::format("{} {}", count, several);
}

/// "Sat 6 March 2027 08:00-17:00", or how many days and from which to which.
std::string days_text(const Change& change, const PlanView& view) {
  const auto& openings = change.openings;
  if (change.amount > 1) {
    return fmt::format("{} days that are closed, from {} to {}",
                       change.amount,
                       show_date(openings.front().start, view.zone),
                       show_date(openings.back().start, view.zone));
  }
  std::string clocks;
  for (const Interval& one : openings) {
    clocks += (clocks.empty() ? " " : ", ") + span_text(one.start, one.end, view.zone);
  }
  return openings.empty() ? "" : show_date(openings.front().start, view.zone) + clocks;
}

std::string of_piece(const Change& change, const PlanView& view) {
  return view.plan.pieces.size() > 1 && !change.piece.empty() ? " for " + change.piece : "";
}

std::string air_price(const Way& way, const PlanView& view) {
  const Time last = way.plan.finish.value_or(way.plan.by);
  const AirRange before = air_between(view.plan, way.plan.from, last);
  const AirRange after = air_between(way.plan, way.plan.from, last);
  if (before.empty() || after.empty()) {
    return "";
  }
  return fmt::format("From {} to {}: {} instead of {}.",
                     show_full(way.plan.from, view.zone),
                     moment_text(shown_minute(last), way.plan.from, view.zone),
                     after.text(view.units),
                     before.text(view.units));
}

std::string presence_price(const Way& way) {
  return way.presence.hours() > 0 ? fmt::format("{} of presence more until the end.",
                                                hours_text(way.presence, way.presence))
                                  : "";
}

std::string schedule_price(const Change& change) {
  std::string text = fmt::format("{} Tools: {}; for {} hands.",
                                 change.schedule->summary,
                                 fmt::join(change.schedule->tools, ", "),
                                 name_of(change.schedule->skill));
  if (!change.lacks.empty()) {
    text +=
        fmt::format(" Not meant, as {} is, for: {}.", change.was, fmt::join(change.lacks, ", "));
  }
  return text + " It is another finish: make its own sample board and have it approved.";
}

std::string coat_price(const Change& change) {
  return fmt::format(
      "{} instead of {}; {} are usual. Lost: film to wear, thickness on the edges, "
      "depth, and what can be rubbed later.",
      counted(change.amount, "coat", "coats"),
      change.amount + 1,
      change.usual_least == change.usual_most
          ? fmt::format("{}", change.usual_least)
          : fmt::format("{} to {}", change.usual_least, change.usual_most));
}

}  // namespace

std::string order_of(const Change& change, const PlanView& view) {
  switch (change.kind) {
    case ChangeKind::kWarmer:
      return "Warm the shop by " + degrees(change, view);
    case ChangeKind::kDrier:
      return fmt::format("Dry the air: hold it at or below {} %", change.amount);
    case ChangeKind::kEarlierStart:
      return fmt::format("Begin {}{}", show_full(change.start, view.zone), of_piece(change, view));
    case ChangeKind::kLongerHours:
      return fmt::format("Stay {} h longer each working day", change.amount);
    case ChangeKind::kDayMore:
      return "Open on " + days_text(change, view);
    case ChangeKind::kRackPlacesMore:
      return "Make room for " + counted(change.amount, "rack place", "rack places") + " more";
    case ChangeKind::kBenchMore:
      return "Set up " + counted(change.amount, "bench", "benches") + " more";
    case ChangeKind::kSprayPlaceMore:
      return "Set up " + counted(change.amount, "spray place", "spray places") + " more";
    case ChangeKind::kPersonMore:
      return "Have " + counted(change.amount, "person", "people") + " more there";
    case ChangeKind::kOtherSchedule:
      return fmt::format("Finish{} with {} ({}) in place of {}",
                         of_piece(change, view).empty() ? "" : " " + change.piece,
                         change.schedule->name,
                         change.schedule->title,
                         change.was);
    case ChangeKind::kCoatFewer:
      return fmt::format(
          "Leave out one coat of {}{}", lower_first(change.product_title), of_piece(change, view));
  }
  return "";
}

std::string change_words(const Change& change, const PlanView& view) {
  switch (change.kind) {
    case ChangeKind::kWarmer:
      return degrees(change, view) + " warmer";
    case ChangeKind::kDrier:
      return fmt::format("air at or below {} %", change.amount);
    case ChangeKind::kEarlierStart:
      return "begun " + show_full(change.start, view.zone) + of_piece(change, view);
    case ChangeKind::kLongerHours:
      return fmt::format("{} h longer each working day", change.amount);
    case ChangeKind::kDayMore:
      return "open on " + days_text(change, view);
    case ChangeKind::kRackPlacesMore:
      return counted(change.amount, "rack place", "rack places") + " more";
    case ChangeKind::kBenchMore:
      return counted(change.amount, "bench", "benches") + " more";
    case ChangeKind::kSprayPlaceMore:
      return counted(change.amount, "spray place", "spray places") + " more";
    case ChangeKind::kPersonMore:
      return counted(change.amount, "person", "people") + " more";
    case ChangeKind::kOtherSchedule:
      return change.schedule->name + of_piece(change, view);
    case ChangeKind::kCoatFewer:
      return fmt::format(
          "one coat fewer of {}{}", lower_first(change.product_title), of_piece(change, view));
  }
  return "";
}

std::string price_of(const Change& change, const Way& way, const PlanView& view) {
  switch (change.kind) {
    case ChangeKind::kWarmer:
    case ChangeKind::kDrier:
      return air_price(way, view);
    case ChangeKind::kEarlierStart:
      return fmt::format("Instead of {}.", show_full(change.start_was, view.zone));
    case ChangeKind::kLongerHours:
    case ChangeKind::kDayMore:
    case ChangeKind::kPersonMore:
      return presence_price(way);
    case ChangeKind::kOtherSchedule:
      return schedule_price(change);
    case ChangeKind::kCoatFewer:
      return coat_price(change);
    case ChangeKind::kRackPlacesMore:
    case ChangeKind::kBenchMore:
    case ChangeKind::kSprayPlaceMore:
      break;
  }
  return "";
}

}  // namespace coatwright
