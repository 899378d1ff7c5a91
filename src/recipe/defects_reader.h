#pragma once

#include <string>
#include <string_view>

#include "base/result.h"
#include "recipe/defect.h"

namespace coatwright {

/// Reads recipes/defects.toml; recipes/README.md documents the keys.
/// @param label the file's name as errors show it. Errors: kInputFile with file, line, key, the
/// value found and what is allowed.
[[nodiscard]] Result<Defects> parse_defects(std::string_view text, const std::string& label);

}  // namespace coatwright
