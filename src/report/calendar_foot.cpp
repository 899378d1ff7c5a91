#include "report/calendar_foot.h"

#include <algorithm>
#include <vector>

#include <fmt/format.h>

#include "base/quantity_text.h"
#include "plan/shop_load.h"
#include "report/calendar_changes.h"
#include "report/room_words.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

constexpr std::size_t kSpanWidth = 28;  // of "Fri 12 Mar 16:00-Sat 17:30", and blanks

std::string section(std::string_view heading, const std::string& body) {
  return body.empty() ? "" : "\n" + underlined(heading, '-') + body;
}

std::string milestones(const PlanView& view) {
  constexpr std::size_t kMomentWidth = 29;
  std::string text;
  for (const Milestone* milestone : milestones_in_order(view.plan)) {
    text +=
        wrap(milestone_text(view, *milestone),
             padded("  " + show_full(shown_minute(milestone->at), view.zone), kMomentWidth) + "  ",
             std::string(kMomentWidth + 2, ' '));
  }
  return text.empty() ? "" : "Not before, by calculation only:\n" + text;
}

std::string quantities(const PlanView& view) {
  constexpr std::size_t kAmountWidth = 10;
  std::string text;
  for (const PlannedQuantity& quantity : view.plan.quantities) {
    text += wrap(quantity_text(quantity),
                 padded("  " + show_volume(quantity.amount, view.units), kAmountWidth) + "  ",
                 std::string(kAmountWidth + 2, ' '));
  }
  return text;
}

std::string_view case_words(PreparationCase when) {
  switch (when) {
    case PreparationCase::kFlakes:
      return "where you dissolve it yourself";
    case PreparationCase::kColdCan:
      return "where the can stands colder than the shop";
    case PreparationCase::kAlways:
      break;
  }
  return "always";
}

std::string lead_text(const PlanPreparation& preparation) {
  const double low = preparation.low.hours();
  const double high = preparation.high.hours();
  return low < high ? fmt::format("{:g} to {:g} h", low, high) : fmt::format("{:g} h", high);
}

std::string preparations(const PlanView& view) {
  constexpr std::size_t kMomentWidth = 29;
  std::string text;
  for (const PlanPreparation& one : view.plan.preparations) {
    text +=
        wrap(preparation_text(view, one),
             padded("  " + show_full(shown_minute(one.begin_by), view.zone), kMomentWidth) + "  ",
             std::string(kMomentWidth + 2, ' '));
  }
  return text.empty() ? "" : "At the latest:\n" + text;
}

std::string shortages(const PlanView& view) {
  std::string text;
  for (const Shortage& one : view.plan.shortages) {
    text += wrap(fmt::format("{}: {} {} stood ready and waited for them, {} in all",
                             one.resource,
                             one.sessions,
                             one.sessions == 1 ? "session" : "sessions",
                             show_duration(one.waited)),
                 "- ",
                 "  ");
  }
  for (const ShortStretch& one : shortages_of(view.plan)) {
    const std::string span = short_moment(one.start, view.zone);
    const std::string day = span.substr(0, span.rfind(' ') + 1);
    text += wrap(one.what + " taken",
                 "  " + padded(day + span_text(one.start, one.end, view.zone), kSpanWidth),
                 std::string(kSpanWidth + 2, ' '));
  }
  return text;
}

std::string warnings(const PlanView& view) {
  std::string text;
  for (const PlanWarning& warning : view.plan.warnings) {
    text += is_of_log(warning) ? "" : wrap(warning.text, "! ", "  ");
  }
  return text;
}

std::string hold_up(const HoldUp& entry) {
  const bool has_span = entry.span > std::chrono::seconds(0);
  return wrap(entry.text + (has_span ? " (" + show_duration(entry.span) + ")" : ""), "- ", "  ");
}

std::string hold_ups(const Plan& plan) {
  std::string text;
  const std::size_t shown =
      plan.fits ? std::min<std::size_t>(plan.hold_ups.size(), 1) : plan.hold_ups.size();
  for (std::size_t i = 0; i < shown; ++i) {
    text += hold_up(plan.hold_ups[i]);
  }
  return text;
}

}  // namespace

std::vector<const Milestone*> milestones_in_order(const Plan& plan) {
  std::vector<const Milestone*> sorted;
  for (const Milestone& milestone : plan.milestones) {
    sorted.push_back(&milestone);
  }
  std::stable_sort(sorted.begin(), sorted.end(), [](const Milestone* a, const Milestone* b) {
    return a->at < b->at;
  });
  return sorted;
}

std::string milestone_text(const PlanView& view, const Milestone& milestone) {
  std::string place = view.plan.pieces.size() > 1 ? milestone.piece : "";
  if (!is_whole(milestone.part)) {
    place += (place.empty() ? "" : ", ") + milestone.part;
  }
  return (place.empty() ? "" : place + ": ") + use_at_stage(milestone.stage);
}

std::string quantity_text(const PlannedQuantity& quantity) {
  const std::string title =
      quantity.product_title.empty() ? quantity.product : quantity.product_title;
  return quantity.basis.empty() ? title : title + ": " + quantity.basis;
}

std::string preparation_text(const PlanView& view, const PlanPreparation& one) {
  const bool before_plan = one.begin_by < view.plan.from;
  return fmt::format("{}{}, {}: {} {} before its first coat.{}",
                     fmt::join(one.product_titles, ", "),
                     one.product_titles.size() > 1 ? " (each)" : "",
                     case_words(one.when),
                     as_sentence(one.text),
                     lead_text(one),
                     before_plan ? " That is before this plan begins." : "");
}

std::string calendar_foot(const PlanView& view) {
  return section("When it may be used", milestones(view)) +
         section("Get ready", preparations(view)) + section("What is needed", quantities(view)) +
         section("What is short when", shortages(view)) +
         section("The room's air", room_section(view)) + section("Warnings", warnings(view)) +
         section(view.plan.fits ? "The biggest wait" : "What holds it up", hold_ups(view.plan)) +
         "\nTimes are calculated from class ranges: label and data sheet come first.\n"
         "Test before you coat: touch the sample board first; if it is tacky, wait.\n";
}

}  // namespace coatwright
