#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace coatwright {

/// @return how many letters must be added, left out or changed to get from one to the other.
/// Source: Levenshtein 1966; the usual table by rows.
[[nodiscard]] std::size_t edit_distance(std::string_view from, std::string_view to);

/// @return at most three known names that are a small edit away from `name` or contain it, the
/// nearest first.
[[nodiscard]] std::vector<std::string> nearest_names(std::string_view name,
                                                     const std::vector<std::string>& known);

/// "there is no product 'X'; the nearest names are: ..."; lists all names where none is near.
[[nodiscard]] std::string no_such_name(std::string_view what,
                                       std::string_view name,
                                       const std::vector<std::string>& known);

}  // namespace coatwright
