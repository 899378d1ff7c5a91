#pragma once

#include <string>
#include <string_view>

#include "cli/common.h"

namespace coatwright {

/// What a call is told where it does not say which piece.
struct PieceAsk {
  std::string_view none;     ///< No piece is stored.
  std::string_view several;  ///< The names follow it.
};

/// The stored piece that a call means: the one named, or where none is, the only one.
/// Errors: kNotFound; kUsage when there are several, naming them, or none.
[[nodiscard]] Result<StoredPiece> piece_meant(const std::string& name,
                                              const Session& session,
                                              const PieceAsk& ask);

}  // namespace coatwright
