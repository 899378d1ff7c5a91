#pragma once

#include <string>
#include <vector>

#include "recipe/product.h"

namespace coatwright {

/// What can hurt while a product is put on so, a word or two each, the gravest first:
/// "isocyanates", "formaldehyde", "flammable", "oily rags", "nitrocellulose", "spray mist",
/// "hardener".
[[nodiscard]] std::vector<std::string> hazard_words(const Product& product, Method method);

}  // namespace coatwright
