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

Result<ShopSettings> read_shop_settings(const Store& store) {
  const auto usual_day =
      read_setting<UsualDay>(store, ShopSetting::kUsualDay, "usual day", UsualDay::parse);
  if (!usual_day) {
    return pass_on(usual_day.error());
  }
  const auto hours =
      read_setting<WeekHours>(store, ShopSetting::kHours, "shop hours", WeekHours::parse);
  if (!hours) {
    return pass_on(hours.error());
  }
  const auto time_zone = store.setting(ShopSetting::kTimeZone);
  if (!time_zone) {
    return pass_on(time_zone.error());
  }
  const auto units =
      read_setting<UnitSystem>(store, ShopSetting::kUnits, "units", units_from_store);
  if (!units) {
    return pass_on(units.error());
  }
  return ShopSettings{*usual_day, *hours, *time_zone, *units};
}

}  // namespace coatwright
