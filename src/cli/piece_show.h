#pragma once

#include <string>
#include <vector>

#include "cli/common.h"

namespace coatwright {

/// A stored piece with its units and its work, as text or JSON as the session asks.
[[nodiscard]] std::string piece_page(const StoredPiece& piece, const Session& session);

/// The pieces as a table or JSON.
[[nodiscard]] std::string pieces_page(const std::vector<StoredPiece>& pieces,
                                      const Session& session);

}  // namespace coatwright
