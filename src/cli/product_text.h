#pragma once

#include <optional>
#include <string>

#include "base/quantity_text.h"
#include "recipe/paced_product.h"
#include "recipe/product.h"

namespace coatwright {

/// A product as `product show` prints it.
/// @param air shows a second column of times in this air; nothing: the reference alone.
/// @param learned adds this shop's own pace, where something was learned.
[[nodiscard]] std::string product_as_text(const Product& product,
                                          const std::optional<TemperatureAndHumidity>& air,
                                          const LearnedPaces& learned,
                                          UnitSystem units);
[[nodiscard]] std::string product_as_json(const Product& product,
                                          const std::optional<TemperatureAndHumidity>& air,
                                          const LearnedPaces& learned);

/// A computed duration that opens something: known to one or two digits, and rounded up, so that
/// nothing opens sooner. "8 h 45 min to 1 d 6 h".
[[nodiscard]] std::string show_opening_range(const DurationRange& range);

/// What the product's limits say to this air: bars and cautions, a sentence each.
[[nodiscard]] std::vector<std::string> words_on_air(const Product& product,
                                                    const TemperatureAndHumidity& air);

}  // namespace coatwright
