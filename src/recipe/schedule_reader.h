#pragma once

#include <string>
#include <string_view>

#include "base/result.h"
#include "recipe/schedule.h"

namespace coatwright {

/// Reads recipes/schedules/NAME.toml; recipes/README.md documents the keys.
/// @param label         the file's name as errors show it.
/// @param expected_name what `name` must be; empty: any recipe name.
/// Errors: kInputFile with file, line, key, the value found and what is allowed.
[[nodiscard]] Result<Schedule> parse_schedule(std::string_view text,
                                              const std::string& label,
                                              std::string_view expected_name = "");

}  // namespace coatwright
