#pragma once

#include <deque>
#include <string>

#include "cli/common.h"
#include "plan/fault_trace.h"

namespace coatwright {

/// A stored piece's log as faults are traced in it. Points into itself.
struct FaultCaseLog {
  FaultCase piece;
  std::deque<Product> products;  ///< Of the coats, each as its recipe was then.
};

/// Reads what was done to a piece, without what was struck out or left out.
/// @param part,face of what is wanted; empty: all. Entries of the whole piece count for each.
/// Errors: from the store and the recipes.
[[nodiscard]] Result<FaultCaseLog> read_fault_case(const StoredPiece& piece,
                                                   const std::string& part,
                                                   const std::string& face,
                                                   const RecipeBook& book,
                                                   const Session& session);

}  // namespace coatwright
