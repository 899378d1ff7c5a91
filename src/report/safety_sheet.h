#pragma once

#include <cstddef>
#include <string>

#include "safety/safety_sheet.h"

namespace coatwright {

/// Lines of a page that is printed to be pinned up.
inline constexpr std::size_t kPageLines = 66;

/// Products on one sheet, so that its head leaves room for what it says.
inline constexpr std::size_t kMostSheetProducts = 20;

/// The sheet as pages of at most kPageLines by kPageWidth, each with its own head and foot, parted
/// by form feeds. What does not fit goes on to a further page; nothing is left out. A statement
/// that is not for all products ends in their numbers.
/// @param sheet  of 1 to kMostSheetProducts products.
[[nodiscard]] std::string show_safety_sheet(const SafetySheet& sheet);

/// Pages of the same kind with every statement, its classes, its source and how it is known.
[[nodiscard]] std::string explain_safety_sheet(const SafetySheet& sheet);

/// The products with their hazards and the sections with their statements and sources.
[[nodiscard]] std::string safety_sheet_as_json(const SafetySheet& sheet);

}  // namespace coatwright
