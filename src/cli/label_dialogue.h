#pragma once

#include "recipe/label_figures.h"

namespace coatwright {

/// Asks for a label, question by question on standard error, and reads the answers from standard
/// input: one line each, an empty one keeps what the class has. A wrong answer is asked again.
/// @param label what is known already, such as the name.
/// Errors: kUsage when the answers end before the last question.
[[nodiscard]] Result<LabelFigures> ask_for_label(const Product& of_class, LabelFigures label);

}  // namespace coatwright
