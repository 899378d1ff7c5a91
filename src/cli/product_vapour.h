#pragma once

#include <string>

#include <nlohmann/json_fwd.hpp>

#include "recipe/product.h"

namespace coatwright {

/// What leaves the product as it dries, and how easily it catches fire, as `product show` prints
/// it; empty where nothing evaporates.
[[nodiscard]] std::string vapour_as_text(const Product& product, UnitSystem units);
/// The same; null where nothing evaporates.
[[nodiscard]] nlohmann::ordered_json vapour_as_json(const Product& product);

}  // namespace coatwright
