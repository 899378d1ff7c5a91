#pragma once

#include <string>
#include <vector>

#include "cli/common.h"

namespace coatwright {

/// How large a piece is, as typed; empty: not given.
struct SizeOptions {
  std::string area;
  std::string top;
  std::string parts;
  std::string faces;

  [[nodiscard]] bool any() const {
    return !area.empty() || !top.empty() || !parts.empty() || !faces.empty();
  }
};

/// A piece's area and how its faces are coated.
struct PieceSize {
  Area face = Area::from_square_metres(0);  ///< Of one face, with its share of the edges.
  PieceFaces faces = PieceFaces::kOne;
  std::vector<StoredUnit> units = {};  ///< What a part list says is finished as one thing.
  std::vector<StoredWork> work = {};   ///< The work that joins them.
};

/// Declares --area, --top, --parts and --faces.
void add_size_options(CLI::App& command, SizeOptions& options);

/// The size from the one of --area, --top and --parts that is given. A top has its edges coated; a
/// part list says itself which faces and edges are, and perhaps what is finished as one thing. What
/// two faces have together is halved.
/// Errors: kUsage unless one is given, or where --faces does not go with the part list; kOutOfRange
/// above 1000 m2; kInputFile from the part list.
[[nodiscard]] Result<PieceSize> piece_size(const SizeOptions& options);

}  // namespace coatwright
