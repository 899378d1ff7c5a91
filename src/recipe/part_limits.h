#pragma once

#include <array>
#include <string_view>

#include "base/units.h"
#include "recipe/part_list.h"
#include "recipe/toml_reader.h"

/// What both forms of a part list allow.
namespace coatwright {

inline constexpr NumberRange kPartCountRange = {1.0, 10000.0};
inline constexpr NumberRange kPartSideRange = {1.0, 20000.0};     // mm
inline constexpr NumberRange kPartThicknessRange = {0.1, 300.0};  // mm

/// A unit of the lengths, as the end of a key or column: "length_mm".
struct PartUnit {
  std::string_view name;
  double millimetres;
};

inline constexpr std::array<PartUnit, 4> kPartUnits = {
    {{"mm", 1.0}, {"cm", 10.0}, {"m", 1000.0}, {"in", 25.4}}};

/// A range of millimetres in another unit.
[[nodiscard]] constexpr NumberRange in_unit(const NumberRange& millimetres, const PartUnit& unit) {
  return {millimetres.low / unit.millimetres, millimetres.high / unit.millimetres};
}

/// Reads one [[part]].
[[nodiscard]] Part read_part(TomlTable& table);

[[nodiscard]] Result<std::vector<Part>> read_part_list_csv(std::string_view text,
                                                           const std::string& label);

}  // namespace coatwright
