#pragma once

#include <string>
#include <string_view>

#include "report/safety_sheet.h"

/// Words that a safety sheet has as text and on paper.
namespace coatwright {

/// A blank at which no line is broken.
inline constexpr std::string_view kNumbersBlank = "\u00a0";

/// "RAGS FIRST", "FIRE" ...
[[nodiscard]] std::string_view label_of(SafetySection section);
/// " [1,3]" where a statement is not for all products of the sheet.
[[nodiscard]] std::string numbers_text(const SheetStatement& entry, const SafetySheet& sheet);
/// The products by number, as each page's head names them.
[[nodiscard]] std::string products_text(const SafetySheet& sheet);
/// Day and pieces, as far as they are known.
[[nodiscard]] std::string subject_of(const SafetyFacts& facts);

}  // namespace coatwright
