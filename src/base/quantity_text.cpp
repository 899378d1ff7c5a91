#include "base/quantity_text.h"

#include <array>
#include <charconv>
#include <cmath>
#include <optional>

#include <fmt/format.h>

namespace coatwright {
namespace {

struct NumberAndUnit {
  double number;
  std::string_view unit;
};

std::string_view trim(std::string_view text) {
  const auto first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) {
    return {};
  }
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

// "1,000" means 1000 to one maker and 1.000 to another, so it is refused; "0,125" is clear.
bool may_be_thousands(std::string_view number) {
  const auto comma = number.find(',');
  return comma != std::string_view::npos && number.size() - comma == 4 && number.front() != '0';
}

// A comma between digits is a decimal comma, as European makers type it.
std::optional<NumberAndUnit> split(std::string_view text) {
  std::string copy(trim(text));
  for (char& c : copy) {
    c = c == ',' ? '.' : c;
  }
  double number = 0;
  const auto [end, failure] = std::from_chars(copy.data(), copy.data() + copy.size(), number);
  if (failure != std::errc() || !std::isfinite(number)) {
    return std::nullopt;
  }
  const auto used = static_cast<std::size_t>(end - copy.data());
  if (may_be_thousands(trim(text).substr(0, used))) {
    return std::nullopt;
  }
  return NumberAndUnit{number, trim(trim(text).substr(used))};
}

bool is_one_of(std::string_view unit, std::initializer_list<std::string_view> names) {
  for (const std::string_view name : names) {
    if (unit == name) {
      return true;
    }
  }
  return false;
}

tl::unexpected<Error> malformed(std::string_view what,
                                std::string_view text,
                                std::string_view wanted) {
  return fail(
      ErrorCode::kUsage,
      fmt::format("'{}' is not {}: write a number and its unit, as in {}", text, what, wanted));
}

tl::unexpected<Error> out_of_range(std::string_view what,
                                   std::string_view text,
                                   std::string_view allowed) {
  return fail(ErrorCode::kOutOfRange,
              fmt::format("{} '{}' is out of range: {} is allowed", what, text, allowed));
}

}  // namespace

Result<Temperature> parse_temperature(std::string_view text) {
  constexpr double kColdest = -40.0;
  constexpr double kHottest = 60.0;
  const auto parts = split(text);
  std::optional<Temperature> value;
  if (parts && is_one_of(parts->unit, {"C", "c", "°C", "degC"})) {
    value = Temperature::from_celsius(parts->number);
  } else if (parts && is_one_of(parts->unit, {"F", "f", "°F", "degF"})) {
    value = Temperature::from_fahrenheit(parts->number);
  }
  if (!value) {
    return malformed("a temperature", text, "14C or 57F");
  }
  if (value->celsius() < kColdest || value->celsius() > kHottest) {
    return out_of_range("the temperature", text, "-40C to 60C (-40F to 140F)");
  }
  return *value;
}

Result<RelativeHumidity> parse_humidity(std::string_view text) {
  const auto parts = split(text);
  if (!parts || !is_one_of(parts->unit, {"%", "%RH", "% RH"})) {
    return malformed("a relative humidity", text, "62%");
  }
  if (parts->number < 0.0 || parts->number > 100.0) {
    return out_of_range("the humidity", text, "0% to 100%");
  }
  return RelativeHumidity::from_percent(parts->number);
}

Result<Area> parse_area(std::string_view text) {
  constexpr double kLargest = 1000.0;
  const auto parts = split(text);
  std::optional<Area> value;
  if (parts && is_one_of(parts->unit, {"m2", "m²", "sqm"})) {
    value = Area::from_square_metres(parts->number);
  } else if (parts && is_one_of(parts->unit, {"sqft", "ft2", "ft²"})) {
    value = Area::from_square_feet(parts->number);
  }
  if (!value) {
    return malformed("an area", text, "1.9m2 or 20sqft");
  }
  if (value->square_metres() <= 0.0 || value->square_metres() > kLargest) {
    return out_of_range("the area", text, "above 0 and at most 1000m2");
  }
  return *value;
}

Result<FilmThickness> parse_film_thickness(std::string_view text) {
  constexpr double kThinnest = 1.0;
  constexpr double kThickest = 2000.0;
  const auto parts = split(text);
  std::optional<FilmThickness> value;
  if (parts && is_one_of(parts->unit, {"um", "µm"})) {
    value = FilmThickness::from_micrometres(parts->number);
  } else if (parts && is_one_of(parts->unit, {"mil", "mils"})) {
    value = FilmThickness::from_mils(parts->number);
  }
  if (!value) {
    return malformed("a film thickness", text, "75um or 3mil");
  }
  if (value->micrometres() < kThinnest || value->micrometres() > kThickest) {
    return out_of_range("the film thickness", text, "1um to 2000um");
  }
  return *value;
}

Result<Length> parse_thickness(std::string_view text) {
  constexpr double kThinnest = 1.0;
  constexpr double kThickest = 300.0;
  constexpr double kMillimetresPerCentimetre = 10.0;
  const auto parts = split(text);
  std::optional<Length> value;
  if (parts && is_one_of(parts->unit, {"mm"})) {
    value = Length::from_millimetres(parts->number);
  } else if (parts && is_one_of(parts->unit, {"cm"})) {
    value = Length::from_millimetres(parts->number * kMillimetresPerCentimetre);
  } else if (parts && is_one_of(parts->unit, {"in", "\""})) {
    value = Length::from_inches(parts->number);
  }
  if (!value) {
    return malformed("a thickness", text, "40mm, 4cm or 1.5in");
  }
  if (value->millimetres() < kThinnest || value->millimetres() > kThickest) {
    return out_of_range("the thickness", text, "1mm to 300mm (0.04in to 11.8in)");
  }
  return *value;
}

Result<Volume> parse_volume(std::string_view text) {
  constexpr double kLargest = 1000.0;
  constexpr double kMillilitresPerLitre = 1000.0;
  constexpr double kQuartsPerGallon = 4.0;
  constexpr double kFluidOuncesPerQuart = 32.0;
  const auto parts = split(text);
  std::optional<Volume> value;
  if (parts && is_one_of(parts->unit, {"L", "l"})) {
    value = Volume::from_litres(parts->number);
  } else if (parts && is_one_of(parts->unit, {"ml", "mL"})) {
    value = Volume::from_litres(parts->number / kMillilitresPerLitre);
  } else if (parts && is_one_of(parts->unit, {"qt"})) {
    value = Volume::from_us_quarts(parts->number);
  } else if (parts && is_one_of(parts->unit, {"gal"})) {
    value = Volume::from_us_quarts(parts->number * kQuartsPerGallon);
  } else if (parts && is_one_of(parts->unit, {"floz", "fl oz"})) {
    value = Volume::from_us_quarts(parts->number / kFluidOuncesPerQuart);
  }
  if (!value) {
    return malformed("an amount", text, "0.2L, 200ml or 1qt");
  }
  if (value->litres() <= 0.0 || value->litres() > kLargest) {
    return out_of_range("the amount", text, "above 0 and at most 1000L");
  }
  return *value;
}

Result<TemperatureAndHumidity> parse_air(std::string_view text) {
  // The temperature ends with its unit, so that "20,5C,62%" keeps its decimal comma.
  const auto whole = trim(text);
  const auto unit = whole.find_first_of("CFcf");
  if (whole.find_first_of(", ", unit) != unit + 1 || unit == std::string_view::npos) {
    return malformed("an air", text, "14C,62%");
  }
  const auto first = whole.substr(0, unit + 1);
  auto second = trim(whole.substr(unit + 1));
  if (!second.empty() && second.front() == ',') {
    second.remove_prefix(1);
  }
  const auto temperature = parse_temperature(first);
  if (!temperature) {
    return pass_on(temperature.error());
  }
  const auto humidity = parse_humidity(second);
  if (!humidity) {
    return pass_on(humidity.error());
  }
  return TemperatureAndHumidity{*temperature, *humidity};
}

std::string show_temperature(Temperature value, UnitSystem units) {
  return units == UnitSystem::kUs ? fmt::format("{:.1f} F", value.fahrenheit())
                                  : fmt::format("{:.1f} C", value.celsius());
}

std::string show_whole_temperature(Temperature value, UnitSystem units) {
  return units == UnitSystem::kUs ? fmt::format("{:.0f} F", value.fahrenheit())
                                  : fmt::format("{:.0f} C", value.celsius());
}

std::string show_difference(TemperatureDifference value, UnitSystem units) {
  return units == UnitSystem::kUs ? fmt::format("{:.1f} F", value.fahrenheit_degrees())
                                  : fmt::format("{:.1f} C", value.kelvin());
}

std::string show_thickness(Length value, UnitSystem units) {
  return units == UnitSystem::kUs ? fmt::format("{:.2f} in", value.inches())
                                  : fmt::format("{:.0f} mm", value.millimetres());
}

std::string show_humidity(RelativeHumidity value) {
  return fmt::format("{:.0f} %", value.percent());
}

std::string show_area(Area value, UnitSystem units) {
  return units == UnitSystem::kUs ? fmt::format("{:.1f} sq ft", value.square_feet())
                                  : fmt::format("{:.2f} m2", value.square_metres());
}

std::string show_volume(Volume value, UnitSystem units) {
  return units == UnitSystem::kUs ? fmt::format("{:.2f} qt", value.us_quarts())
                                  : fmt::format("{:.2f} L", value.litres());
}

}  // namespace coatwright
