#pragma once

#include "recipe/product.h"
#include "recipe/toml_reader.h"

namespace coatwright {

/// Reads what a product needs before and beside its coats: [mix], [[preparation]], [storage] and
/// [usual_coats], all optional.
void read_care(TomlTable& root, Product& product);

}  // namespace coatwright
