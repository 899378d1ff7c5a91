#pragma once

#include <deque>
#include <string>
#include <vector>

#include "cli/common.h"
#include "plan/planner.h"
#include "store/log_entry.h"

namespace coatwright {

/// A stored piece's log as planning reads it. Points into itself.
struct PieceLog {
  std::vector<LoggedWork> works;        ///< By time; without what was struck out.
  std::deque<Product> products;         ///< Of the coats, each as its recipe was then.
  std::vector<std::string> left_aside;  ///< Entries that planning does not take, and why.
};

/// The faces of an entry by planning's numbers: 0 is the back, 1 the front, and the one face of a
/// piece is 0. @param face as an entry has it.
[[nodiscard]] std::vector<int> faces_by_number(const std::string& face, PieceFaces piece);

/// @param unit of the piece, whose entries are wanted: those of its name, and those of the whole
/// piece; null: the piece as a whole. Errors: from the store and the recipes.
[[nodiscard]] Result<PieceLog> read_piece_log(const StoredPiece& piece,
                                              const RecipeBook& book,
                                              const Session& session,
                                              const StoredUnit* unit = nullptr);

/// The recipe that a coat was logged with; the present one where that can no longer be read.
[[nodiscard]] Result<Product> product_of_coat(const LogEntry& coat,
                                              const RecipeBook& book,
                                              const Session& session);

}  // namespace coatwright
