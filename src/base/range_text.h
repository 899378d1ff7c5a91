#pragma once

#include <optional>
#include <string_view>

#include "base/result.h"
#include "base/units.h"

/// Ranges as labels print them: "2h-4h", "2-4h", "55F-90F", "300-400sqft/gal"; a single figure is a
/// range of one. A minus sign at the beginning belongs to the number.
namespace coatwright {

struct HoursRange {
  Hours low;
  Hours high;
};

struct TemperatureRange {
  Temperature low;
  Temperature high;
};

/// Two figures of one unit that has no type of its own.
struct NumbersRange {
  double low = 0;
  double high = 0;
};

/// @param text such as "2h", "2h-4h", "2-4h", "30min-1h", "7d"; units min, h, d.
/// Errors: kUsage when malformed or high below low, kOutOfRange unless above 0 and at most 5000 h.
[[nodiscard]] Result<HoursRange> parse_hours_range(std::string_view text);

/// @param text such as "55F-90F" or "13C-32C". Errors: kUsage when malformed or when the high is
/// not above the low, kOutOfRange as parse_temperature().
[[nodiscard]] Result<TemperatureRange> parse_temperature_range(std::string_view text);

/// @param text such as "300-400sqft/gal", "75-100sqft/qt" or "10-12m2/L". @return m2 per litre.
/// Errors: kUsage when malformed or high below low, kOutOfRange unless above 0 and at most 50 m2/L.
[[nodiscard]] Result<NumbersRange> parse_spread_range(std::string_view text);

/// @param text such as "30%" or "28%-32%". @return percent. Errors: kUsage, kOutOfRange.
[[nodiscard]] Result<NumbersRange> parse_percent_range(std::string_view text);

}  // namespace coatwright
