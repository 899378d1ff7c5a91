#pragma once

#include <deque>
#include <string>
#include <vector>

#include "cli/common.h"
#include "cli/piece_log.h"
#include "plan/planner.h"

namespace coatwright {

/// What of a stored piece is finished as one thing, as planning takes it.
struct FinishedPart {
  std::string name;        ///< The unit's; "all" of a piece that is not divided.
  std::string shown_name;  ///< "cabinet, door"; the piece's own where it has one part.
  PieceRequest request;    ///< With its log; its name is the piece's.
  PieceLog log;            ///< What the request points into.
  int rack_places = 1;
};

/// The parts of a piece with their logs, in the order of its units. Dates no finish that it came in
/// with. Errors: from the recipes and the store.
[[nodiscard]] Result<std::deque<FinishedPart>> finished_parts(const StoredPiece& piece,
                                                              const RecipeBook& book,
                                                              const Session& session);

/// The schedules of a piece, each part's as it is for the wood. Errors: from the recipes.
[[nodiscard]] Result<std::vector<const Schedule*>> schedules_of(const StoredPiece& piece,
                                                                const RecipeBook& book);

/// Adds texts that are not among them yet: an entry of a piece is left aside by each of its parts.
void add_new(const std::vector<std::string>& more, std::vector<std::string>& texts);

}  // namespace coatwright
