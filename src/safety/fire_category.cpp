#include "safety/fire_category.h"

#include <array>

namespace coatwright {
namespace {

// Source: un_ghs_2_6, table 2.6.1.
constexpr Temperature kHighlyFlammableBelow = Temperature::from_celsius(23.0);
constexpr Temperature kFlammableUpTo = Temperature::from_celsius(60.0);
constexpr Temperature kCombustibleUpTo = Temperature::from_celsius(93.0);
constexpr Temperature kExtremelyBoilsUpTo = Temperature::from_celsius(35.0);

constexpr std::array<FireStatement, 4> kStatements = {{
    {"H224", "Extremely flammable liquid and vapour", "Danger"},
    {"H225", "Highly flammable liquid and vapour", "Danger"},
    {"H226", "Flammable liquid and vapour", "Warning"},
    {"H227", "Combustible liquid", "Warning"},
}};

}  // namespace

FireCategory fire_category(const std::optional<Temperature>& flash,
                           const std::optional<Temperature>& boiling) {
  if (!flash || *flash > kCombustibleUpTo) {
    return FireCategory::kNone;
  }
  if (*flash > kFlammableUpTo) {
    return FireCategory::kFour;
  }
  if (*flash >= kHighlyFlammableBelow) {
    return FireCategory::kThree;
  }
  const bool boils_late = boiling && *boiling > kExtremelyBoilsUpTo;
  return boils_late ? FireCategory::kTwo : FireCategory::kOne;
}

FireCategory fire_category(const Product& product) {
  const auto value = [](const std::optional<Known<Temperature>>& known) {
    return known ? std::optional(known->value) : std::nullopt;
  };
  return product.vapour
             ? fire_category(value(product.vapour->flash), value(product.vapour->boiling))
             : FireCategory::kNone;
}

const FireStatement* statement_of(FireCategory category) {
  return category == FireCategory::kNone
             ? nullptr
             : &kStatements[static_cast<std::size_t>(category) - 1];  // NOLINT: 1 to 4
}

}  // namespace coatwright
