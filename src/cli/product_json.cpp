// `product show --json`.
#include <nlohmann/json.hpp>

#include "cli/common.h"
#include "cli/product_in_air.h"
#include "cli/product_text.h"
#include "cli/product_vapour.h"
#include "cli/shop_pace_page.h"

namespace coatwright {
namespace {

using Json = nlohmann::ordered_json;

Json range_of(const DurationRange& range) {
  constexpr int kDecimals = 4;  // a third of a second
  return {{"low_hours", rounded(range.low().hours(), kDecimals)},
          {"high_hours", rounded(range.high().hours(), kDecimals)}};
}

/// Writes one product; keeps the air that its times are also wanted in.
class Writer {
 public:
  Writer(const Product& product, std::optional<TemperatureAndHumidity> air)
      : product_(product), air_(air) {}

  [[nodiscard]] Json whole() const {
    Json json = {{"name", product_.name},
                 {"title", product_.title},
                 {"kind", name_of(product_.kind)},
                 {"carrier", product_.carrier},
                 {"methods", Json::array()}};
    for (const Method method : product_.methods) {
      json["methods"].push_back(name_of(method));
    }
    if (!product_.made_from.empty()) {
      json["made_from"] = product_.made_from;
    }
    json["stages"] = stages();
    json["recoat"] = recoat();
    if (product_.wipe_off) {
      json["wipe_off"] = wipe_off(*product_.wipe_off);
    }
    json["limits"] = limits();
    json["vapour"] = vapour_as_json(product_);
    json["cautions"] = product_.hazards.cautions;
    if (air_) {
      json["this_air"] = words_on_air(product_, *air_);
    }
    return json;
  }

 private:
  [[nodiscard]] Json opening(const StageTiming& timing) const {
    Json json = {{"mechanism", timing.description()}, {"reference", range_of(timing.whole())}};
    if (air_) {
      const auto there = opening_in_air(timing, product_.limits, *air_);
      json["in_air"] = there ? range_of(*there) : Json();
    }
    return json;
  }

  [[nodiscard]] Json closing(const StageTiming& timing) const {
    Json json = {{"mechanism", timing.description()}, {"reference", range_of(timing.whole())}};
    if (air_) {
      json["in_air"] = range_of(closing_in_air(timing, *air_));
    }
    return json;
  }

  [[nodiscard]] Json stages() const {
    Json json = Json::object();
    for (const auto& [stage, drying] : product_.stages) {
      Json entry = opening(drying.timing);
      entry["source"] = drying.source;
      entry["note"] = drying.note;
      json[std::string(name_of(stage))] = entry;
    }
    return json;
  }

  [[nodiscard]] Json recoat() const {
    Json json = Json::array();
    for (const RecoatInterval& interval : product_.recoat) {
      const char* condition = interval.condition == RecoatCondition::kNone     ? "none"
                              : interval.condition == RecoatCondition::kAbrade ? "abrade"
                                                                               : "never";
      json.push_back({{"condition", condition},
                      {"opens", opening(interval.opens)},
                      {"closes", interval.closes ? closing(*interval.closes) : Json()},
                      {"reason", interval.reason},
                      {"source", interval.source}});
    }
    return json;
  }

  [[nodiscard]] Json wipe_off(const WipeOff& wipe) const {
    Json json = {{"opens_minutes", rounded(wipe.opens.minutes(), 1)},
                 {"closes_minutes", rounded(wipe.closes.minutes(), 1)}};
    if (air_) {
      json["closes_minutes_in_air"] = rounded(closing_in_air(wipe, *air_).minutes(), 1);
    }
    json["source"] = wipe.source;
    return json;
  }

  template <class T, class Value>
  static void add_limit(Json& into,
                        const char* key,
                        const std::optional<Sourced<T>>& limit,
                        Value value) {
    if (limit) {
      into[key] = {{"value", rounded(value(limit->value), 2)},
                   {"source", limit->source},
                   {"note", limit->note}};
    }
  }

  [[nodiscard]] Json limits() const {
    const Limits& limits = product_.limits;
    const auto celsius = [](Temperature t) { return t.celsius(); };
    const auto percent = [](RelativeHumidity h) { return h.percent(); };
    const auto kelvin = [](TemperatureDifference d) { return d.kelvin(); };
    Json json = {{"critical_stage", name_of(limits.critical_stage)}};
    add_limit(json, "temperature_min_c", limits.temperature_min, celsius);
    add_limit(json, "temperature_max_c", limits.temperature_max, celsius);
    add_limit(json, "humidity_min_percent", limits.humidity_min, percent);
    add_limit(json, "humidity_max_percent", limits.humidity_max, percent);
    add_limit(json, "dew_point_spread_min_c", limits.dew_point_spread_min, kelvin);
    add_limit(json, "blush_spread_c", limits.blush_spread, kelvin);
    add_limit(json, "film_formation_min_c", limits.film_formation_min, celsius);
    return json;
  }

  const Product& product_;
  std::optional<TemperatureAndHumidity> air_;
};

}  // namespace

std::string product_as_json(const Product& product,
                            const std::optional<TemperatureAndHumidity>& air,
                            const LearnedPaces& learned) {
  Json json = Writer(product, air).whole();
  if (const auto stages = paced_stages(product, learned); !stages.empty()) {
    json["this_shop"] = shop_pace_as_json(stages);
  }
  return json.dump(2) + "\n";
}

}  // namespace coatwright
