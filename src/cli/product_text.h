#pragma once

#include <optional>
#include <string>

#include "base/quantity_text.h"
#include "recipe/product.h"

namespace coatwright {

/// A product as `product show` prints it.
/// @param air shows a second column of times in this air; nothing: the reference alone.
[[nodiscard]] std::string product_as_text(const Product& product,
                                          const std::optional<TemperatureAndHumidity>& air,
                                          UnitSystem units);
[[nodiscard]] std::string product_as_json(const Product& product,
                                          const std::optional<TemperatureAndHumidity>& air);

/// What the product's limits say to this air: bars and cautions, a sentence each.
[[nodiscard]] std::vector<std::string> words_on_air(const Product& product,
                                                    const TemperatureAndHumidity& air);

}  // namespace coatwright
