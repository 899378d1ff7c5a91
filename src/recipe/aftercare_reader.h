#pragma once

#include <string>
#include <string_view>

#include "base/result.h"
#include "recipe/aftercare.h"

namespace coatwright {

/// Reads recipes/aftercare.toml; recipes/README.md documents the keys.
/// @param label the file's name as errors show it. Errors: kInputFile with file, line, key, the
/// value found and what is allowed.
[[nodiscard]] Result<Aftercare> parse_aftercare(std::string_view text, const std::string& label);

}  // namespace coatwright
