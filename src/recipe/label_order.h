#pragma once

#include <string_view>

#include "recipe/label_figures.h"

namespace coatwright {

/// The option that gives a stage's hours, such as "--recoat"; empty where there is none.
[[nodiscard]] std::string_view label_option_of(Stage stage);

/// Errors: kUsage when hours of a label are shorter than those of a stage that comes before.
[[nodiscard]] Result<void> check_label_order(const LabelFigures& label);

}  // namespace coatwright
