#pragma once

#include <string_view>

namespace coatwright {

/// Whether two texts have the same letters and digits in the same order, whatever their case and
/// whatever blanks, hyphens and underscores stand between them: "tack-free" and "Tack free".
[[nodiscard]] bool matches_loosely(std::string_view a, std::string_view b);

}  // namespace coatwright
