#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "recipe/recipe_book.h"

namespace coatwright {

/// A step of a piece's work as typed: its kind by a plan's word, with what belongs to it.
struct NamedStep {
  std::string kind;     ///< "sand", "clean_gun" ...
  std::string grit;     ///< "P150"; of sand, abrade, raise_grain and rub_out.
  std::string product;  ///< Of "apply", which can only be left out: coats are logged by `coat`.
};

/// Reads "sand P150", "rags", "sand P120 P150 flip": kinds with their grits, one step per grit.
/// @param words as typed, blanks within them too. @param coats_too whether "apply PRODUCT" may
/// stand among them.
/// Errors: kUsage for an unknown kind, naming the nearest, and for a grit that is none or stands
/// with the wrong kind; kNotFound for an unknown product.
[[nodiscard]] Result<std::vector<NamedStep>> parse_steps(const std::vector<std::string>& words,
                                                         bool coats_too,
                                                         const RecipeBook& book);

}  // namespace coatwright
