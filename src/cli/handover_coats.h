#pragma once

#include <deque>
#include <optional>
#include <string>
#include <vector>

#include "cli/common.h"
#include "cli/finished_parts.h"
#include "plan/progress.h"

/// What lies on each part of a piece that is handed over, by its log, or by its last plan where
/// that has the coats which are still to come.
namespace coatwright {

/// A part with all of its coats on, or planned.
struct PartWithCoats {
  const FinishedPart* part;
  Progress progress;  ///< Early coats are not held back yet.
  std::vector<std::string>
      missing;             ///< Coats neither logged nor planned; empty: there is an answer.
  std::size_t logged = 0;  ///< Entries of its log that are done; later ones are planned.
};

/// @param parts of the piece; their logs lose what is to come, and get the planned coats.
/// @param kept the piece's last plan, or nothing. Errors: from the recipes.
[[nodiscard]] Result<std::vector<PartWithCoats>> coated_parts(std::deque<FinishedPart>& parts,
                                                              const std::optional<KeptPlan>& kept,
                                                              const RecipeBook& book,
                                                              Time now);

}  // namespace coatwright
