#pragma once

#include <cstddef>
#include <vector>

#include "recipe/product.h"
#include "recipe/safety_statement.h"

/// From the products of a job to what its safety sheet must say.
namespace coatwright {

struct SheetStatement {
  const SafetyStatement* statement;
  std::vector<std::size_t> products;  ///< Positions in SafetySheet::products, at least one.
};

struct SheetSection {
  SafetySection section;
  std::vector<SheetStatement> statements;  ///< At least one.
};

/// So many things can be read from two metres, and kept in mind.
inline constexpr std::size_t kMostHeadlines = 3;

/// Points into the products and statements it was made from.
struct SafetySheet {
  std::vector<const Product*> products;
  std::vector<const SafetyHeadline*> headlines;  ///< At most kMostHeadlines, the gravest first.
  std::vector<SheetSection> sections;            ///< In the order of SafetySection; none empty.
};

/// Whether a product belongs to a class of hazard.
[[nodiscard]] bool belongs_to(const Product& product, HazardClass hazard);

/// The classes that a product belongs to, without kAll.
[[nodiscard]] std::vector<HazardClass> hazards_of(const Product& product);

/// Chooses the headlines and statements that apply to any of the products.
/// @param products  each named once is enough: a second time adds nothing.
/// @param texts  the order of the statements within a section is kept, and that of the headlines.
[[nodiscard]] SafetySheet make_safety_sheet(const std::vector<const Product*>& products,
                                            const SafetyTexts& texts);

}  // namespace coatwright
