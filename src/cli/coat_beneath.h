#pragma once

#include <string>
#include <vector>

#include "plan/piece_state.h"
#include "recipe/recipe_book.h"
#include "store/log_entry.h"
#include "store/stored_piece.h"

/// What lies on a piece's faces at a moment, by its log.
namespace coatwright {

/// One face of one part, or of the whole piece.
struct CoatedSpot {
  std::string part;   ///< Empty: whatever was coated.
  std::string face;   ///< "front", "back"
  PieceFaces faces;   ///< Of what it is a face of.
  bool rest = false;  ///< Only what was coated as a whole: no entry of a part alone counts.

  [[nodiscard]] bool is_in(const LogEntry& entry) const;
};

/// The faces that a word stands for; none: the one face, or all of them.
[[nodiscard]] std::vector<std::string> faces_meant(const std::string& face, PieceFaces faces);

/// The last coat on a spot. Points into the log.
struct CoatBeneath {
  const LogEntry* coat = nullptr;  ///< None: bare wood.
  Time ended;                      ///< The coat's wiping, or the coat itself.
  bool abraded = false;            ///< Since.

  bool operator==(const CoatBeneath&) const = default;
};

/// @param log of the piece, by time; what was struck out does not count.
[[nodiscard]] CoatBeneath coat_beneath_at(const CoatedSpot& spot,
                                          Time at,
                                          const std::vector<LogEntry>& log);

/// What lies on each of an entry's faces at its time, each once.
/// @param faces of what the entry is on.
[[nodiscard]] std::vector<CoatBeneath> coats_beneath(const LogEntry& entry,
                                                     PieceFaces faces,
                                                     const std::vector<LogEntry>& log);

/// Gives a coat the film and the thinner with which the piece's schedule lays its product.
void set_scheduled_film(const StoredPiece& piece, const RecipeBook& book, LaidCoat& coat);

}  // namespace coatwright
