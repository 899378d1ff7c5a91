#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "recipe/safety_statement.h"

namespace coatwright {

/// Reads recipes/safety.toml; recipes/README.md documents the keys.
/// @param label the file's name as errors show it.
/// @return the statements in the order of the file.
/// Errors: kInputFile with file, line, key, the value found and what is allowed.
[[nodiscard]] Result<SafetyTexts> parse_safety_texts(std::string_view text,
                                                     const std::string& label);

}  // namespace coatwright
