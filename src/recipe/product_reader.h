#pragma once

#include <string>
#include <string_view>

#include "base/result.h"
#include "recipe/product.h"

namespace coatwright {

/// Reads recipes/products/NAME.toml; recipes/README.md documents the keys.
/// @param label         the file's name as errors show it.
/// @param expected_name what `name` must be; empty: any recipe name.
/// @param substances    what its vapour may name; null: any name, and its shares point to none.
/// Errors: kInputFile with file, line, key, the value found and what is allowed.
[[nodiscard]] Result<Product> parse_product(std::string_view text,
                                            const std::string& label,
                                            std::string_view expected_name = "",
                                            const Substances* substances = nullptr);

}  // namespace coatwright
