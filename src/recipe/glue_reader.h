#pragma once

#include <string>
#include <string_view>

#include "base/result.h"
#include "recipe/glue.h"

namespace coatwright {

/// Reads recipes/glues.toml; recipes/README.md documents the keys.
/// @param label the file's name as errors show it. Errors: kInputFile with file, line, key, the
/// value found and what is allowed.
[[nodiscard]] Result<Glues> parse_glues(std::string_view text, const std::string& label);

}  // namespace coatwright
