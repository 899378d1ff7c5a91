#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "report/sheet.h"
#include "safety/safety_sheet.h"

namespace coatwright {

/// Lines of a page that is printed to be pinned up.
inline constexpr std::size_t kPageLines = 66;

/// Products on one sheet, so that its head leaves room for what it says.
inline constexpr std::size_t kMostSheetProducts = 20;

/// What a sheet says beside its statements, in words; what is empty is not printed.
struct SafetyFacts {
  std::string day;                   ///< "Saturday 6 March 2027"
  std::string pieces;                ///< "hall bench, stool"
  std::vector<std::string> figures;  ///< Coats, vapour, room and fan.
  std::vector<std::string> labels;   ///< Fire category of each product.
  std::vector<std::string> stored;   ///< What will stand there against its limits.
  std::string emergency;             ///< Whom to call.
};

/// The sheet as pages of at most kPageLines by kPageWidth, each with its own head and foot, parted
/// by form feeds. What does not fit goes on to a further page; nothing is left out. A statement
/// that is not for all products ends in their numbers.
/// @param sheet  of 1 to kMostSheetProducts products.
[[nodiscard]] std::string show_safety_sheet(const SafetySheet& sheet,
                                            const SafetyFacts& facts = {});

/// The sheet for the wall: what matters most in letters for two metres, whom to call, what is done
/// that day; then, to be printed on the back, the statements.
[[nodiscard]] Sheet safety_as_sheet(const SafetySheet& sheet,
                                    const SafetyFacts& facts,
                                    Time made_at);

/// Pages of the same kind with every statement, its classes, its source and how it is known.
[[nodiscard]] std::string explain_safety_sheet(const SafetySheet& sheet);

/// The products with their hazards and the sections with their statements and sources.
[[nodiscard]] std::string safety_sheet_as_json(const SafetySheet& sheet,
                                               const SafetyFacts& facts = {});

}  // namespace coatwright
