#pragma once

#include <string>
#include <string_view>

#include "base/result.h"
#include "recipe/substance.h"

namespace coatwright {

/// Reads recipes/substances.toml; recipes/README.md documents the keys.
/// @param label the file's name as errors show it. Errors: kInputFile with file, line, key, the
/// value found and what is allowed.
[[nodiscard]] Result<Substances> parse_substances(std::string_view text, const std::string& label);

/// Adds a shop's own substances to those built in; one of the same name takes its place, but what
/// never clears a room stays so.
[[nodiscard]] Substances with_own(Substances built_in, Substances own);

}  // namespace coatwright
