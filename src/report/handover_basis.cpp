#include "report/handover_basis.h"

#include <fmt/format.h>

#include "base/quantity_text.h"
#include "report/handover_words.h"
#include "report/plan_words.h"

namespace coatwright {
namespace {

std::string stage_basis(const std::string& what, const CardStage& stage, const HandoverView& view) {
  if (stage.mechanism.empty()) {
    return fmt::format("{}: the recipe of {} gives no time.", what, lower_first(stage.product));
  }
  const std::string range =
      hours_text(stage.low, stage.high) + " to " + hours_text(stage.high, stage.high);
  return fmt::format(
      "{}: {}. {} dries since {}; it takes {} at {} ({}), {} for {:.0f} in 100 [{}].",
      what,
      stage.at ? "not before " + show_full(shown_minute(*stage.at), view.zone)
               : "not in sight within 200 days",
      stage.product,
      show_full(stage.since, view.zone),
      range,
      reference_air_text(view.units),
      stage.mechanism,
      hours_text(stage.needed, stage.needed),
      view.card.confidence * 100.0,
      stage.source);
}

std::string origins_text(const CardAir& air) {
  std::vector<std::string_view> names;
  for (const AirOrigin origin : air.origins) {
    names.push_back(name_of(origin));
  }
  return fmt::format("{}", fmt::join(names, ", "));
}

std::string air_basis(const HandoverView& view) {
  const CardAir& air = view.card.air;
  const auto warm = [&](Temperature value) { return show_temperature(value, view.units); };
  std::string text = fmt::format(
      "Handed over {} ({}). ", show_full(air.handed_over, view.zone), name_of(air.moment));
  if (air.from < air.handed_over) {
    text += fmt::format("Up to then the shop's air, {} to {} and {} to {} ({}). ",
                        warm(air.coldest),
                        warm(air.warmest),
                        show_humidity(air.driest),
                        show_humidity(air.dampest),
                        origins_text(air));
  }
  return text + fmt::format("Then the house's air, {} and {} day and night ({}).",
                            warm(air.house),
                            show_humidity(air.house_humidity),
                            air.house_assumed
                                ? "assumed, on the cool and dry side: judgement; say another one "
                                  "with --house"
                                : "as given");
}

SheetList advice_basis(const HandoverCard& card) {
  SheetList list;
  list.size = SheetSize::kSmall;
  for (int i = 0; i <= static_cast<int>(AftercareSection::kFood); ++i) {
    for (const CardItem& item : items_of(card, static_cast<AftercareSection>(i))) {
      list.items.push_back(
          fmt::format("{} [{}, {}]", item_words(item), item.item->how, item.item->source));
    }
  }
  return list;
}

}  // namespace

std::string_view name_of(HandoverMoment moment) {
  switch (moment) {
    case HandoverMoment::kAsked:
      return "as given";
    case HandoverMoment::kLogged:
      return "as logged";
    case HandoverMoment::kPlanned:
      return "as planned";
    case HandoverMoment::kDue:
      return "by the piece's date";
    case HandoverMoment::kNow:
      break;
  }
  return "at once";
}

Sheet handover_basis(const HandoverView& view) {
  Sheet sheet;
  sheet.title = "For the maker";
  sheet.subtitle = "Care card of " + view.card.piece;
  sheet.made_at = view.card.made_at;
  const auto add = [&](SheetBlock block) { sheet.blocks.push_back(std::move(block)); };
  add(SheetHeading{"What the days rest on"});
  SheetList days;
  for (const CardFinish& finish : view.card.finishes) {
    days.items.push_back(with_parts(finish, stage_basis("Light use", finish.light_use, view)));
    days.items.push_back(with_parts(finish, stage_basis("Full use", finish.full_use, view)));
  }
  days.items.push_back(air_basis(view));
  days.items.push_back("The card names the first whole day after each moment.");
  days.items.insert(days.items.end(), view.card.remarks.begin(), view.card.remarks.end());
  add(std::move(days));
  add(SheetHeading{"How the advice is known"});
  add(advice_basis(view.card));
  return sheet;
}

}  // namespace coatwright
