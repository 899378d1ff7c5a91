#include "store/shop_settings.h"

#include <fmt/format.h>

#include "base/quantity_text.h"
#include "base/vapour_text.h"

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

/// What can be taken back: "none" is nothing.
template <class T>
Result<std::optional<T>> parsed_or_none(const std::string& text,
                                        Result<T> (*parse)(std::string_view)) {
  if (text == "none") {
    return std::nullopt;
  }
  return parse(text).map([](T value) { return std::optional<T>(value); });
}

/// The room with what was said of it.
Result<FinishingRoom> read_room(const Store& store) {
  using Volumes = std::optional<AirVolume>;
  using Flows = std::optional<AirFlow>;
  const auto volume = read_setting<Volumes>(store, ShopSetting::kRoom, "room", parse_room_setting);
  const auto fan = read_setting<Flows>(store, ShopSetting::kFan, "fan", parse_fan_setting);
  const auto rating =
      read_setting<FanRating>(store, ShopSetting::kFanRated, "fan's rating", parse_fan_rating);
  const auto mixing =
      read_setting<MixingFactor>(store, ShopSetting::kMixing, "mixing factor", parse_mixing);
  const auto ignition =
      read_setting<std::string>(store, ShopSetting::kIgnition, "ignition", parse_words);
  if (const Error* wrong = first_error(volume, fan, rating, mixing, ignition)) {
    return pass_on(*wrong);
  }
  return FinishingRoom{volume->value_or(std::nullopt),
                       fan->value_or(std::nullopt),
                       rating->value_or(FanRating::kUnknown),
                       mixing->value_or(MixingFactor::assumed()),
                       ignition->value_or("")};
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

Result<std::optional<AirVolume>> parse_room_setting(const std::string& text) {
  return parsed_or_none<AirVolume>(text, &parse_room);
}

Result<std::optional<AirFlow>> parse_fan_setting(const std::string& text) {
  return parsed_or_none<AirFlow>(text, &parse_air_flow);
}

Result<FanRating> parse_fan_rating(const std::string& text) {
  for (const FanRating rating : {FanRating::kRated, FanRating::kNotRated, FanRating::kUnknown}) {
    if (text == name_of(rating)) {
      return rating;
    }
  }
  return fail(
      ErrorCode::kUsage,
      fmt::format("'{}': yes, where the fan and its motor are rated for flammable vapour, no "
                  "or unknown is allowed",
                  text));
}

Result<MixingFactor> parse_mixing(const std::string& text) {
  const auto number = parse_measure(text);
  if (!number) {
    return fail(ErrorCode::kUsage,
                fmt::format("'{}' is no mixing factor: write a number from 1 to 10", text));
  }
  if (*number < MixingFactor::kLeast || *number > MixingFactor::kMost) {
    return fail(ErrorCode::kOutOfRange,
                fmt::format("the mixing factor '{}' is out of range: 1 (perfect) to 10 (poor) is "
                            "allowed",
                            text));
  }
  return MixingFactor::from_number(*number);
}

Result<std::string> parse_words(const std::string& text) {
  constexpr std::size_t kMost = 300;
  const bool one_line = text.find_first_of("\n\r\t\f\v") == std::string::npos;
  if (!one_line || text.size() > kMost) {
    return fail(ErrorCode::kUsage,
                fmt::format("one line of at most {} letters is allowed, or none", kMost));
  }
  return text == "none" ? "" : text;
}

Result<bool> parse_yes_or_no(const std::string& text) {
  if (text == "yes" || text == "no") {
    return text == "yes";
  }
  return fail(ErrorCode::kUsage, fmt::format("'{}': yes or no is allowed", text));
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
  const auto room = read_room(store);
  const auto emergency =
      read_setting<std::string>(store, ShopSetting::kEmergency, "emergency numbers", parse_words);
  const auto cabinet = read_setting<bool>(store, ShopSetting::kCabinet, "cabinet", parse_yes_or_no);
  const auto days = store.special_days();
  if (const Error* wrong = first_error(usual_day,
                                       hours,
                                       time_zone,
                                       units,
                                       people,
                                       spray,
                                       rack,
                                       benches,
                                       apart,
                                       recoat,
                                       room,
                                       emergency,
                                       cabinet,
                                       days)) {
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
                      *room,
                      emergency->value_or(""),
                      *cabinet,
                      *days};
}

}  // namespace coatwright
