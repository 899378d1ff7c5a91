#include "plan/handover_card.h"

#include <algorithm>

#include <fmt/format.h>

namespace coatwright {
namespace {

bool has_any_layer(const CardFinish& finish, const AftercareItem& item) {
  return item.layers.empty() ||
         std::any_of(finish.layers.begin(), finish.layers.end(), [&](const std::string& layer) {
           return item.is_of(layer);
         });
}

}  // namespace

bool CardFinish::planned() const {
  return std::any_of(coats.begin(), coats.end(), [](const CardCoats& one) { return one.planned; });
}

bool HandoverCard::planned() const {
  return std::any_of(
      finishes.begin(), finishes.end(), [](const CardFinish& one) { return one.planned(); });
}

std::vector<CardItem> items_of(const HandoverCard& card, AftercareSection section) {
  std::vector<CardItem> items;
  for (const AftercareItem& item : card.care) {
    if (item.section != section) {
      continue;
    }
    CardItem chosen{&item, {}, true};
    for (const CardFinish& finish : card.finishes) {
      if (has_any_layer(finish, item)) {
        chosen.finishes.push_back(&finish);
      }
    }
    chosen.of_all = chosen.finishes.size() == card.finishes.size();
    if (!chosen.finishes.empty()) {
      items.push_back(std::move(chosen));
    }
  }
  return items;
}

date::local_days first_whole_day(Time at, const Zone& zone) {
  return date::ceil<date::days>(zone.to_local(at));
}

std::string parts_text(const CardFinish& finish) {
  return fmt::format("{}", fmt::join(finish.parts, ", "));
}

}  // namespace coatwright
