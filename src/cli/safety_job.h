#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/common.h"
#include "report/safety_figures.h"

namespace coatwright {

/// What one safety sheet is about.
struct SafetyJob {
  std::string pieces;                    ///< Named, with commas; may be empty.
  std::string day;                       ///< "Saturday 6 March 2027"; may be empty.
  std::vector<const Product*> products;  ///< At least one.
  SafetyFigures figures;
  std::vector<StoredLiquid> stored;
};

/// How the coats of several pieces are parted into sheets.
enum class SheetPer { kJob, kPiece, kDay };

/// The sheets for the coats that stored pieces still need: by their last plans where they were
/// planned, with days and the room's air; else without. @param day of which alone; none: all.
/// Errors: kNo where nothing is put on that day; of the store and the recipes.
[[nodiscard]] Result<std::vector<SafetyJob>> safety_jobs(const std::vector<StoredPiece>& pieces,
                                                         SheetPer per,
                                                         std::optional<Time> day,
                                                         const RecipeBook& book,
                                                         const Session& session);

}  // namespace coatwright
