#include "store/shop_settings.h"

#include <fmt/format.h>

namespace coatwright {
namespace {

/// Reads one setting by its own parser. Errors: kStore, naming the setting.
template <class T, class Parse>
Result<std::optional<T>> read_setting(const Store& store,
                                      ShopSetting which,
                                      const std::string& words,
                                      Parse parse) {
  const auto text = store.setting(which);
  if (!text) {
    return pass_on(text.error());
  }
  if (!*text) {
    return std::nullopt;
  }
  Result<T> value = parse(**text);
  if (!value) {
    return fail(ErrorCode::kStore,
                fmt::format("store '{}': the {} stored in it cannot be read: {}",
                            store.path().string(),
                            words,
                            value.error().text()));
  }
  return std::optional<T>(std::move(*value));
}

/// A count of places; nothing where it was not set, or where the shop is not short of them.
Result<std::optional<int>> read_places(const Store& store,
                                       ShopSetting which,
                                       const std::string& words) {
  const auto places = read_setting<std::optional<int>>(store, which, words, parse_places);
  if (!places) {
    return pass_on(places.error());
  }
  return places->value_or(std::nullopt);
}

/// The first failure among results; null: all are there.
template <class... T>
const Error* first_error(const Result<T>&... results) {
  const Error* first = nullptr;
  ((first = first == nullptr && !results ? &results.error() : first), ...);
  return first;
}

Result<UnitSystem> units_from_store(const std::string& text) {
  if (text == "metric" || text == "us") {
    return text == "us" ? UnitSystem::kUs : UnitSystem::kMetric;
  }
  return fail(ErrorCode::kStore, fmt::format("'{}' is neither metric nor us", text));
}

}  // namespace

UsualDay ShopSettings::usual_day_or_assumed() const {
  return usual_day ? *usual_day
                   : UsualDay::constant(Temperature::from_celsius(20.0),
                                        RelativeHumidity::from_percent(50.0));
}

WeekHours ShopSettings::hours_or_assumed() const {
  return hours ? *hours : WeekHours::parse(kAssumedHours).value();
}

ShopTimes ShopSettings::times_or_assumed() const {
  return {hours_or_assumed(), people.value_or(WeekPeople()), special_days};
}

Result<std::optional<int>> parse_places(const std::string& text) {
  constexpr int kMost = 99;
  if (text == "any") {
    return std::nullopt;
  }
  const auto count = count_of(text, kMost);
  if (!count || *count < 1) {
    return fail(ErrorCode::kUsage,
                fmt::format("'{}' is no number of places: write 1 to {}, or any where the shop is "
                            "not short of them",
                            text,
                            kMost));
  }
  return count;
}

Result<bool> parse_finishing_room(const std::string& text) {
  if (text == "apart" || text == "shared") {
    return text == "apart";
  }
  return fail(ErrorCode::kUsage,
              fmt::format("'{}': apart, where films dry in a room of their own, or shared with the "
                          "benches is allowed",
                          text));
}

Result<bool> parse_learned_recoat(const std::string& text) {
  if (text == "as-tested" || text == "not-below-label") {
    return text == "as-tested";
  }
  return fail(ErrorCode::kUsage,
              fmt::format("'{}': not-below-label, where the label's shortest recoat time holds "
                          "whatever was learned, or as-tested is allowed",
                          text));
}

Result<ShopSettings> read_shop_settings(const Store& store) {
  const auto usual_day =
      read_setting<UsualDay>(store, ShopSetting::kUsualDay, "usual day", UsualDay::parse);
  const auto hours =
      read_setting<WeekHours>(store, ShopSetting::kHours, "shop hours", WeekHours::parse);
  const auto time_zone = store.setting(ShopSetting::kTimeZone);
  const auto units =
      read_setting<UnitSystem>(store, ShopSetting::kUnits, "units", units_from_store);
  const auto people =
      read_setting<WeekPeople>(store, ShopSetting::kPeople, "people", WeekPeople::parse);
  const auto spray = read_places(store, ShopSetting::kSprayPlaces, "spray places");
  const auto rack = read_places(store, ShopSetting::kRackPlaces, "rack places");
  const auto benches = read_places(store, ShopSetting::kBenches, "benches");
  const auto apart = read_setting<bool>(
      store, ShopSetting::kFinishingRoom, "finishing room", parse_finishing_room);
  const auto recoat = read_setting<bool>(
      store, ShopSetting::kLearnedRecoat, "learned recoat", parse_learned_recoat);
  const auto days = store.special_days();
  if (const Error* wrong = first_error(
          usual_day, hours, time_zone, units, people, spray, rack, benches, apart, recoat, days)) {
    return pass_on(*wrong);
  }
  return ShopSettings{*usual_day,
                      *hours,
                      *time_zone,
                      *units,
                      *people,
                      *spray,
                      *rack,
                      *benches,
                      *apart,
                      *recoat,
                      *days};
}

}  // namespace coatwright
