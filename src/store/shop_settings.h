#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "air/air_record.h"
#include "base/result.h"
#include "base/units.h"
#include "base/week_hours.h"
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

  /// The shop's usual day, or 20 C and 50 % all day, which is judgement: a heated workshop.
  [[nodiscard]] UsualDay usual_day_or_assumed() const;
  /// The shop's hours, or kAssumedHours.
  [[nodiscard]] WeekHours hours_or_assumed() const;
};

/// Errors: kStore, also when a stored text cannot be read.
[[nodiscard]] Result<ShopSettings> read_shop_settings(const Store& store);

}  // namespace coatwright
