#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/quantity_text.h"
#include "recipe/product.h"

/// A product's times over a field of airs, for a page and for a picture.
namespace coatwright {

/// Airs from one temperature and humidity to another, in steps of 5 C and 10 %.
struct AirField {
  std::vector<Temperature> temperatures;     ///< Rising, 1 .. 16.
  std::vector<RelativeHumidity> humidities;  ///< Rising, 1 .. 8.
};

/// Whether a text means a field of airs rather than one.
[[nodiscard]] bool is_air_field(std::string_view text);

/// Reads "5C..35C,20%..90%"; either may be one value. Errors: kUsage, kOutOfRange.
[[nodiscard]] Result<AirField> parse_air_field(const std::string& text);

/// Tables of when the product is dust-free, may be recoated with itself and handled, at 90 % of
/// coats, one row a temperature and one column a humidity; where it may not go on, why.
[[nodiscard]] std::string product_field_as_text(const Product& product,
                                                const AirField& field,
                                                UnitSystem units);
[[nodiscard]] std::string product_field_as_json(const Product& product, const AirField& field);

/// When a coat of the product takes the next of itself, as it is.
[[nodiscard]] std::optional<StageTiming> recoat_timing(const Product& product);

}  // namespace coatwright
