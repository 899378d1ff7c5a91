#include "cli/piece_meant.h"

namespace coatwright {

Result<StoredPiece> piece_meant(const std::string& name,
                                const Session& session,
                                const PieceAsk& ask) {
  if (!name.empty()) {
    return session.store.piece(name);
  }
  const auto pieces = session.store.pieces();
  if (!pieces) {
    return pass_on(pieces.error());
  }
  if (pieces->size() == 1) {
    return pieces->front();
  }
  if (pieces->empty()) {
    return fail(ErrorCode::kUsage, std::string(ask.none));
  }
  std::string names;
  for (const StoredPiece& piece : *pieces) {
    names += (names.empty() ? "" : ", ") + piece.name;
  }
  return fail(ErrorCode::kUsage, std::string(ask.several) + ": " + names);
}

}  // namespace coatwright
