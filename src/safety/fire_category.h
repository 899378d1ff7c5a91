#pragma once

#include <optional>
#include <string_view>

#include "base/units.h"
#include "recipe/product.h"

/// How easily a liquid catches fire, by its flash and boiling points.
namespace coatwright {

/// The categories of flammable liquids. kNone: in none of them, which does not mean that it cannot
/// burn.
enum class FireCategory { kNone = 0, kOne = 1, kTwo = 2, kThree = 3, kFour = 4 };

/// The category of a liquid.
/// @param flash   closed cup; none: it has no flash point as it is supplied.
/// @param boiling at 1 atm; none: not known, and below 23 C the stricter category is taken
///                (judgement, no source).
/// Source: un_ghs_2_6; 29 CFR 1910.1200 App. B.6, as osha_1910_106 repeats it: 1 flash below 23 C
/// and boiling up to 35 C; 2 flash below 23 C; 3 from 23 to 60 C; 4 above 60 up to 93 C. A liquid
/// that is heated, and spray cans, which are classed as aerosols, are not covered.
[[nodiscard]] FireCategory fire_category(const std::optional<Temperature>& flash,
                                         const std::optional<Temperature>& boiling);

/// The category of a product as it is supplied; kNone where nothing evaporates from it.
[[nodiscard]] FireCategory fire_category(const Product& product);

/// What is said of a category. Source: un_ghs_2_6, the words from memory.
struct FireStatement {
  std::string_view code;    ///< "H225"
  std::string_view words;   ///< "Highly flammable liquid and vapour"
  std::string_view signal;  ///< "Danger" or "Warning"
};

/// @return null for kNone.
[[nodiscard]] const FireStatement* statement_of(FireCategory category);

}  // namespace coatwright
