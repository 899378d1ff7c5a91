#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "air/air_record.h"
#include "base/result.h"
#include "base/shop_times.h"
#include "base/units.h"
#include "safety/room_air.h"
#include "store/store.h"

namespace coatwright {

/// The hours of a shop that has not set its own. Judgement, no source.
inline constexpr std::string_view kAssumedHours = "Mon-Fri 8:00-17:00";

/// What the shop says about itself, read from the store; what it does not say has a default.
struct ShopSettings {
  std::optional<UsualDay> usual_day;
  std::optional<WeekHours> hours;
  std::optional<std::string> time_zone;  ///< IANA name.
  std::optional<UnitSystem> units;
  std::optional<WeekPeople> people;
  std::optional<int> spray_places;      ///< None: the shop is not short of them.
  std::optional<int> rack_places;       ///< None: not short of them.
  std::optional<int> benches;           ///< None: not short of them.
  std::optional<bool> finishing_apart;  ///< Films dry in a room of their own.
  /// Whether what the shop has learned may let a coat go on before the label's least.
  std::optional<bool> recoat_below_label;
  FinishingRoom room;           ///< Where films dry; what was not said is not there.
  std::string emergency;        ///< Whom to call, as typed; empty: not said.
  std::optional<bool> cabinet;  ///< Whether flammable liquids stand in a cabinet for them.
  SpecialDays special_days;

  /// The shop's usual day, or 20 C and 50 % all day, which is judgement: a heated workshop.
  [[nodiscard]] UsualDay usual_day_or_assumed() const;
  /// The shop's hours, or kAssumedHours.
  [[nodiscard]] WeekHours hours_or_assumed() const;
  /// When who is there: these hours, one person where the shop did not say, and the days that are
  /// not as usual.
  [[nodiscard]] ShopTimes times_or_assumed() const;
};

/// Reads a count of places: "2", or "any" where the shop is not short of them.
/// Errors: kUsage unless 1 .. 99 or "any".
[[nodiscard]] Result<std::optional<int>> parse_places(const std::string& text);

/// Reads "apart" (true) or "shared" (false). Errors: kUsage.
[[nodiscard]] Result<bool> parse_finishing_room(const std::string& text);

/// Reads "as-tested" (true: below the label's least too) or "not-below-label" (false).
/// Errors: kUsage.
[[nodiscard]] Result<bool> parse_learned_recoat(const std::string& text);

/// Reads "6x5x3m", or "none". Errors: as parse_room().
[[nodiscard]] Result<std::optional<AirVolume>> parse_room_setting(const std::string& text);

/// Reads "850m3/h", or "none". Errors: as parse_air_flow().
[[nodiscard]] Result<std::optional<AirFlow>> parse_fan_setting(const std::string& text);

/// Reads "yes", "no" or "unknown". Errors: kUsage.
[[nodiscard]] Result<FanRating> parse_fan_rating(const std::string& text);

/// Reads a mixing factor, "1" to "10". Errors: kUsage, kOutOfRange.
[[nodiscard]] Result<MixingFactor> parse_mixing(const std::string& text);

/// Reads a line of words; "none": empty. Errors: kUsage when it is more than a line of 300 letters.
[[nodiscard]] Result<std::string> parse_words(const std::string& text);

/// Reads "yes" or "no". Errors: kUsage.
[[nodiscard]] Result<bool> parse_yes_or_no(const std::string& text);

/// Errors: kStore, also when a stored text cannot be read.
[[nodiscard]] Result<ShopSettings> read_shop_settings(const Store& store);

}  // namespace coatwright
