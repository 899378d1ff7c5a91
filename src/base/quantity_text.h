#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "base/units.h"

/// Quantities as people type them: a number directly followed by its unit. A number without a unit
/// is an error that names the units, because 20 C and 20 F are far apart.
namespace coatwright {

/// @param text such as "68F", "20C", "20.5°C", "20,5C".
/// @return the temperature. Errors: kUsage when malformed, kOutOfRange outside -40 .. 60 C.
[[nodiscard]] Result<Temperature> parse_temperature(std::string_view text);

/// @param text such as "55%". Errors: kUsage when malformed, kOutOfRange outside 0 .. 100 %.
[[nodiscard]] Result<RelativeHumidity> parse_humidity(std::string_view text);

/// @param text such as "1.9m2" or "20sqft" (also "20ft2").
/// Errors: kUsage when malformed, kOutOfRange unless above 0 and at most 1000 m2.
[[nodiscard]] Result<Area> parse_area(std::string_view text);

/// @param text such as "75um" or "3mil". Errors: kUsage, kOutOfRange unless 1 .. 2000 um.
[[nodiscard]] Result<FilmThickness> parse_film_thickness(std::string_view text);

/// The thickness of a piece of wood. @param text such as "40mm", "4cm" or "1.5in" (also `1.5"`).
/// Errors: kUsage when malformed, kOutOfRange unless 1 .. 300 mm.
[[nodiscard]] Result<Length> parse_thickness(std::string_view text);

/// Length, width and thickness of a board.
struct Dimensions {
  Length length = Length::from_metres(0);
  Length width = Length::from_metres(0);
  Length thickness = Length::from_metres(0);
};

/// Reads a number as people type it: "600", "600.5", "600,5", and for inches "23 1/2", "23-1/2",
/// "3/4". @return nothing for anything else, a comma that may be for thousands included.
[[nodiscard]] std::optional<double> parse_measure(std::string_view text);

/// @param text length x width x thickness, such as "1200x600x30mm" or "48x23 1/2x1.25in"; in mm,
/// cm, m, in or ft. A unit at the end is that of all three; or each has its own. Errors: kUsage
/// when malformed; kOutOfRange unless length and width are 1 mm to 20 m and the thickness 0.1 to
/// 300 mm.
[[nodiscard]] Result<Dimensions> parse_dimensions(std::string_view text);

/// @param text such as "0.2L", "200ml", "1qt" (US), "1gal" (US) or "8floz" (US).
/// Errors: kUsage, kOutOfRange unless above 0 and at most 1000 L.
[[nodiscard]] Result<Volume> parse_volume(std::string_view text);

/// A temperature and a humidity together.
struct TemperatureAndHumidity {
  Temperature temperature;
  RelativeHumidity humidity;
};

/// @param text such as "14C,62%" (also separated by a blank). Errors: as of its two parts.
[[nodiscard]] Result<TemperatureAndHumidity> parse_air(std::string_view text);

/// Shows a temperature with one decimal in the user's units, such as "14.0 C" or "57.2 F".
[[nodiscard]] std::string show_temperature(Temperature value, UnitSystem units);
/// Shows a temperature without decimals.
[[nodiscard]] std::string show_whole_temperature(Temperature value, UnitSystem units);
[[nodiscard]] std::string show_difference(TemperatureDifference value, UnitSystem units);
/// Shows a thickness, such as "40 mm" or "1.57 in".
[[nodiscard]] std::string show_thickness(Length value, UnitSystem units);
[[nodiscard]] std::string show_humidity(RelativeHumidity value);
[[nodiscard]] std::string show_area(Area value, UnitSystem units);
[[nodiscard]] std::string show_volume(Volume value, UnitSystem units);

}  // namespace coatwright
