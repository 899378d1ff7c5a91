#include "report/handover_words.h"

#include <cctype>

#include <fmt/format.h>

#include "base/long_date.h"
#include "base/quantity_text.h"
#include "report/plan_words.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

std::string upper_first(std::string text) {
  if (!text.empty()) {
    text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
  }
  return text;
}

date::local_days day_of(Time time, const Zone& zone) {
  return date::floor<date::days>(zone.to_local(time));
}

/// "on Friday 5 March 2027", "from ... to ...".
std::string days_of(const CardCoats& coats, const Zone& zone) {
  const auto first = day_of(coats.first, zone);
  const auto last = day_of(coats.last, zone);
  return first == last ? "on " + long_date(first)
                       : fmt::format("from {} to {}", long_date(first), long_date(last));
}

}  // namespace

std::string with_parts(const CardFinish& finish, const std::string& text) {
  return finish.parts.empty() ? text : upper_first(parts_text(finish)) + ": " + lower_first(text);
}

std::string finish_words(const CardFinish& finish, const Zone& zone) {
  std::string text = finish.over.empty() ? ""
                                         : fmt::format("Over the finish that was on it ({}). ",
                                                       lower_first(finish.over));
  for (const CardCoats& coats : finish.coats) {
    text += fmt::format("{}{}{}, {}. ",
                        coats.title,
                        coats.coats > 1 ? fmt::format(", {} coats", coats.coats) : "",
                        coats.planned ? ", planned" : "",
                        days_of(coats, zone));
  }
  text.pop_back();
  return with_parts(finish, text);
}

std::string day_words(AftercareSection section, const CardStage& stage, const HandoverView& view) {
  const bool light = section == AftercareSection::kLightUse;
  const std::string head = light ? "Use it lightly" : "Full use";
  if (!stage.at) {
    return fmt::format("{}: ask the maker when. No day can be told by calculation.", head);
  }
  const auto day = first_whole_day(*stage.at, view.zone);
  if (day <= day_of(view.card.air.handed_over, view.zone)) {
    return fmt::format(
        "{} from the day you have it (by calculation not before {}).", head, long_date(day));
  }
  return fmt::format("{} {} {}.", head, light ? "from" : "not before", long_date(day));
}

std::string item_words(const CardItem& item) {
  if (item.of_all) {
    return item.item->text;
  }
  CardFinish all;
  for (const CardFinish* finish : item.finishes) {
    all.parts.insert(all.parts.end(), finish->parts.begin(), finish->parts.end());
  }
  return with_parts(all, item.item->text);
}

std::string foot_words(const HandoverView& view) {
  const CardAir& air = view.card.air;
  return fmt::format(
      "Days by calculation only, for a house at {} and {}: {:.0f} of 100 such finishes are ready "
      "by "
      "then. A cooler or damper room takes longer. The label of the finish comes first.",
      show_whole_temperature(air.house, view.units),
      show_humidity(air.house_humidity),
      view.card.confidence * 100.0);
}

}  // namespace coatwright
