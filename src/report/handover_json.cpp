#include "report/handover_json.h"

#include <cmath>

#include <date/date.h>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "report/handover_basis.h"

namespace coatwright {
namespace {

using Json = nlohmann::ordered_json;

double rounded(double value) {
  return std::round(value * 1e3) / 1e3;
}

Json coats_json(const CardCoats& coats, const Zone& zone) {
  return {{"product", coats.product},
          {"title", coats.title},
          {"coats", coats.coats},
          {"first", show_rfc3339(coats.first, zone)},
          {"last", show_rfc3339(coats.last, zone)},
          {"planned", coats.planned}};
}

Json stage_json(const CardStage& stage, const Zone& zone) {
  return {{"from_day",
           stage.at ? Json(date::format("%F", first_whole_day(*stage.at, zone))) : Json(nullptr)},
          {"not_before", stage.at ? Json(show_rfc3339(*stage.at, zone)) : Json(nullptr)},
          {"product", stage.product},
          {"since", show_rfc3339(stage.since, zone)},
          {"low_hours", rounded(stage.low.hours())},
          {"high_hours", rounded(stage.high.hours())},
          {"needed_hours", rounded(stage.needed.hours())},
          {"mechanism", stage.mechanism},
          {"source", stage.source}};
}

Json finish_json(const CardFinish& finish, const Zone& zone) {
  Json json = {{"parts", finish.parts},
               {"over", finish.over},
               {"coats", Json::array()},
               {"layers", finish.layers},
               {"planned", finish.planned()},
               {"light_use", stage_json(finish.light_use, zone)},
               {"full_use", stage_json(finish.full_use, zone)}};
  for (const CardCoats& coats : finish.coats) {
    json["coats"].push_back(coats_json(coats, zone));
  }
  return json;
}

Json air_json(const CardAir& air, const Zone& zone) {
  Json json = {{"from", show_rfc3339(air.from, zone)},
               {"handed_over", show_rfc3339(air.handed_over, zone)},
               {"handed_over_is", name_of(air.moment)},
               {"shop", nullptr},
               {"house",
                {{"temp_c", rounded(air.house.celsius())},
                 {"rh_percent", rounded(air.house_humidity.percent())},
                 {"assumed", air.house_assumed}}}};
  if (air.from < air.handed_over) {
    json["shop"] = {{"temp_c", {rounded(air.coldest.celsius()), rounded(air.warmest.celsius())}},
                    {"rh_percent", {rounded(air.driest.percent()), rounded(air.dampest.percent())}},
                    {"from", Json::array()}};
    for (const AirOrigin origin : air.origins) {
      json["shop"]["from"].push_back(name_of(origin));
    }
  }
  return json;
}

Json care_json(const HandoverCard& card) {
  Json all = Json::array();
  for (int i = 0; i <= static_cast<int>(AftercareSection::kFood); ++i) {
    const auto section = static_cast<AftercareSection>(i);
    for (const CardItem& item : items_of(card, section)) {
      Json parts = Json::array();
      for (const CardFinish* finish : item.finishes) {
        for (const std::string& part : finish->parts) {
          parts.push_back(part);
        }
      }
      all.push_back({{"section", name_of(section)},
                     {"parts", std::move(parts)},
                     {"text", item.item->text},
                     {"source", item.item->source},
                     {"how", item.item->how}});
    }
  }
  return all;
}

}  // namespace

std::string handover_as_json(const HandoverView& view) {
  const HandoverCard& card = view.card;
  Json json = {{"format", "coatwright/handover/1"},
               {"piece", card.piece},
               {"made_at", show_rfc3339(card.made_at, view.zone)},
               {"confidence", rounded(card.confidence)},
               {"planned", card.planned()},
               {"air", air_json(card.air, view.zone)},
               {"finishes", Json::array()},
               {"care", care_json(card)},
               {"remarks", card.remarks}};
  for (const CardFinish& finish : card.finishes) {
    json["finishes"].push_back(finish_json(finish, view.zone));
  }
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace coatwright
