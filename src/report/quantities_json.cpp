#include <cmath>

#include <nlohmann/json.hpp>

#include "report/quantities_page.h"

namespace coatwright {
namespace {

using Json = nlohmann::ordered_json;

double rounded(double value) {
  constexpr double kScale = 1e6;  // more decimals would only pretend to be known
  return std::round(value * kScale) / kScale;
}

double litres(Volume volume) {
  return rounded(volume.litres());
}

template <class Range, class Write>
Json array_of(const Range& range, Write write) {
  Json array = Json::array();
  for (const auto& each : range) {
    array.push_back(write(each));
  }
  return array;
}

Json group_json(const CoatGroup& group) {
  Json json = {{"piece", group.piece},
               {"coats", group.coats},
               {"area_m2", rounded(group.area.square_metres())},
               {"tool", group.tool->name},
               {"wet_film_um", nullptr},
               {"spread_m2_per_l", nullptr},
               {"on_the_wood_percent", nullptr},
               {"m2_per_l", rounded(group.rate.m2_per_l)},
               {"litres", litres(group.used)}};
  if (group.rate.film) {
    json["wet_film_um"] = rounded(group.rate.film->micrometres());
  } else {
    json["spread_m2_per_l"] = group.rate.spread_m2_per_l;
  }
  if (group.rate.on_the_wood) {
    json["on_the_wood_percent"] = rounded(*group.rate.on_the_wood * 100.0);
  }
  return json;
}

Json mix_json(const ProductAmount& amount) {
  if (amount.mix.empty()) {
    return nullptr;
  }
  const Batches& batches = amount.batches;
  Json json = {{"by", amount.product->mix->by_mass ? "mass" : "volume"},
               {"parts",
                array_of(amount.mix,
                         [](const MixShare& share) {
                           return Json{{"name", share.name},
                                       {"parts", share.parts},
                                       {"share", rounded(share.share)},
                                       {"litres", litres(share.amount)}};
                         })},
               {"induction_minutes", rounded(amount.product->mix->induction.minutes())},
               {"pot_life_hours", nullptr},
               {"usable_hours", nullptr},
               {"too_short", batches.too_short}};
  if (batches.pot_life) {
    json["pot_life_hours"] = rounded(batches.pot_life->hours());
    json["usable_hours"] = rounded(batches.usable->hours());
  }
  json["batches"] = array_of(batches.sessions, [](const SessionBatches& session) {
    return Json{{"piece", session.piece},
                {"coat", session.coat},
                {"count", session.count},
                {"litres", litres(session.each)},
                {"work_minutes", rounded(session.work.minutes())}};
  });
  return json;
}

Json purchase_json(const Purchase& purchase) {
  return {{"part", purchase.part.empty() ? Json(nullptr) : Json(purchase.part)},
          {"litres", litres(purchase.needed)},
          {"cans",
           array_of(purchase.cans.cans,
                    [](const auto& cans) {
                      return Json{{"name", cans.first.name},
                                  {"litres", litres(cans.first.volume())},
                                  {"count", cans.second}};
                    })},
          {"left_over_litres", litres(purchase.cans.left_over)}};
}

Json storage_json(const Storage& storage, const QuantitiesView& view) {
  Json json = {
      {"shelf_months", nullptr}, {"opened_months", nullptr}, {"opened_now_until", nullptr}};
  if (storage.shelf_months) {
    json["shelf_months"] = storage.shelf_months->value;
  }
  if (const auto until = use_by(storage, view.now)) {
    json["opened_months"] = storage.opened_months->value;
    json["opened_now_until"] = show_rfc3339(*until, view.zone);
  }
  return json;
}

Json product_json(const ProductAmount& amount, const QuantitiesView& view) {
  Json buy = Json::array();
  for (const Purchase& purchase : view.purchases) {
    if (purchase.of == &amount) {
      buy.push_back(purchase_json(purchase));
    }
  }
  Json json = {{"product", amount.product->name},
               {"product_title", amount.product->title},
               {"litres", litres(amount.amount)},
               {"used_litres", litres(amount.used)},
               {"waste_percent", amount.waste_percent},
               {"coats", array_of(amount.groups, group_json)},
               {"thinner", nullptr},
               {"mix", mix_json(amount)},
               {"buy", std::move(buy)},
               {"storage", storage_json(amount.product->storage, view)}};
  if (!amount.thinner_name.empty()) {
    json["thinner"] = {{"name", amount.thinner_name}, {"litres", litres(amount.thinner)}};
  }
  return json;
}

Json range_json(const DryRange& dry) {
  return {{"low_um", rounded(dry.low.micrometres())}, {"high_um", rounded(dry.high.micrometres())}};
}

Json film_json(const DryFilm& film) {
  Json json = {{"layers",
                array_of(film.layers,
                         [](const DryLayer& layer) {
                           return Json{{"product", layer.product->name},
                                       {"coats", layer.coats},
                                       {"wet_um", rounded(layer.wet.micrometres())},
                                       {"solids_low_percent", rounded(layer.solids.low)},
                                       {"solids_high_percent", rounded(layer.solids.high)},
                                       {"dry", range_json(layer.dry)}};
                         })},
               {"total", film.layers.empty() ? Json(nullptr) : range_json(film.total)},
               {"checks", array_of(film.checks, [](const FilmCheck& check) {
                  return Json{{"limit_of", check.product->name},
                              {"whole", check.whole},
                              {"dry", range_json(check.dry)},
                              {"limit_um", rounded(check.limit.micrometres())},
                              {"verdict", name_of(check.verdict)},
                              {"source", check.product->film.total_dry_max->source}};
                })}};
  json["not_counted"] =
      array_of(film.without_film, [](const Product* product) { return Json(product->name); });
  return json;
}

}  // namespace

std::string quantities_as_json(const QuantitiesView& view) {
  const Json whole = {{"air",
                       {{"temp_c", rounded(view.air.temperature.celsius())},
                        {"rh_percent", rounded(view.air.humidity.percent())},
                        {"from", view.air_from}}},
                      {"pieces",
                       array_of(view.pieces,
                                [](const PieceOfJob& piece) {
                                  return Json{{"name", piece.name},
                                              {"schedule", piece.schedule},
                                              {"face_area_m2", rounded(piece.face.square_metres())},
                                              {"faces", piece.faces},
                                              {"dry_film", film_json(piece.film)}};
                                })},
                      {"products", array_of(view.products, [&](const ProductAmount& amount) {
                         return product_json(amount, view);
                       })}};
  return whole.dump(2) + "\n";
}

}  // namespace coatwright
