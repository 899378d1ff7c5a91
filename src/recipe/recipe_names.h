#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "recipe/product.h"
#include "recipe/toml_reader.h"

namespace coatwright {

/// The grit numbers a recipe may use, coarse to fine.
/// Source: FEPA 43-1 and 43-2, P40 to P2500 as a maker of furniture meets them.
[[nodiscard]] const std::vector<std::string_view>& known_grits();

/// @param grit one of known_grits(). @return its number: 180 for "P180".
[[nodiscard]] int grit_number(std::string_view grit);

[[nodiscard]] const NamedValues<Method>& known_methods();

/// How a statement is known, from the best to the weakest.
[[nodiscard]] const std::vector<std::string_view>& known_grades();

/// Whether a text is lower-case letters and digits in words joined by single hyphens.
[[nodiscard]] bool is_recipe_name(std::string_view name);

/// Reads the key `name`: lower-case letters and digits in words joined by hyphens.
/// @param expected what it must be, which is the file's own name; empty: any such name.
[[nodiscard]] std::string read_recipe_name(TomlTable& table, std::string_view expected);

}  // namespace coatwright
