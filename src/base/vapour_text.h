#pragma once

#include <string>
#include <string_view>

#include "base/result.h"
#include "base/units.h"
#include "base/vapour_units.h"

/// Rooms and flows of air as people type and read them.
namespace coatwright {

/// A room. @param text length x width x height, such as "6x5x3m" or "20x16x10ft".
/// Errors: kUsage when malformed; kOutOfRange unless each is 1 to 100 m, and the height at most 20.
[[nodiscard]] Result<AirVolume> parse_room(std::string_view text);

/// What a fan moves. @param text such as "850m3/h", "0.24m3/s" or "500cfm".
/// Errors: kUsage when malformed; kOutOfRange unless 10 to 200000 m3/h.
[[nodiscard]] Result<AirFlow> parse_air_flow(std::string_view text);

/// "850 m3/h" or "500 cfm": three digits, two of what is below 1, and whole from 100 on.
[[nodiscard]] std::string show_air_flow(AirFlow value, UnitSystem units);
/// "90.0 m3", "0.079 m3" or "3178 ft3"; digits as of a flow.
[[nodiscard]] std::string show_air_volume(AirVolume value, UnitSystem units);

}  // namespace coatwright
