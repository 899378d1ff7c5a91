#pragma once

#include <string>
#include <vector>

#include "recipe/label_figures.h"

/// The questions of `product from-label`: each is an option, and a question of its dialogue.
namespace coatwright {

struct LabelField {
  std::string option;  ///< "--recoat"
  std::string type;    ///< As --help names it: "HOURS".
  std::string about;
  /// Reads an answer. Errors: kUsage, kOutOfRange.
  Result<void> (*take)(const std::string& text, LabelFigures& into);
  /// What the class has, as a hint; empty: the class has no place for such a figure.
  std::string (*hint)(const Product& of_class);
};

/// In the order in which they are asked.
[[nodiscard]] const std::vector<LabelField>& label_fields();

/// "4 h to 1 d".
[[nodiscard]] std::string show_range(const DurationRange& range);

}  // namespace coatwright
