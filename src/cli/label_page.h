#pragma once

#include <filesystem>
#include <string>

#include "recipe/label_figures.h"

namespace coatwright {

/// What became of a label: each stage of the class and of the new product.
/// @param replaced it takes the place of an older one.
[[nodiscard]] std::string label_as_text(const Product& own,
                                        const Product& of_class,
                                        const LabelFigures& label,
                                        bool replaced);
/// @param path the product's file.
[[nodiscard]] std::string label_as_json(const Product& own,
                                        const Product& of_class,
                                        const LabelFigures& label,
                                        const std::filesystem::path& path);

}  // namespace coatwright
