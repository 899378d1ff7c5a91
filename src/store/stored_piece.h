#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/time.h"
#include "base/units.h"
#include "drying/stage.h"

/// A piece as the store keeps it: what is to be finished, and what is done to it besides.
namespace coatwright {

/// Which faces one session can coat, as the planner's Faces.
enum class PieceFaces { kOne, kTwo, kOnPoints };

/// What of a piece is finished as one thing.
struct StoredUnit {
  std::string name;
  Area area = Area::from_square_metres(0);  ///< Of one face.
  PieceFaces faces = PieceFaces::kOne;
  int rack_places = 1;   ///< Taken while it dries.
  std::string schedule;  ///< Recipe name of its own; empty: the piece's.
  std::string parts;     ///< "2 x side, 4 x shelf"

  bool operator==(const StoredUnit&) const = default;
};

/// Work on a piece that is no finishing.
struct StoredWork {
  std::string kind;        ///< As a plan writes it: "glue", "dry_fit" ...
  std::string name;        ///< As calendars print it.
  std::vector<int> units;  ///< Indexes into the piece's units, in order; never empty.
  bool before_finish = false;
  Hours work = Hours::from_hours(0);  ///< Attended.
  int people = 1;
  bool at_bench = true;
  std::string glue;              ///< Recipe name, of gluing; else empty.
  Stage needs = Stage::kHandle;  ///< Of work after finishing.

  bool operator==(const StoredWork&) const = default;
};

struct StoredPiece {
  std::string name;
  std::string species;
  std::string schedule;
  Area area = Area::from_square_metres(0);  ///< Of one face.
  PieceFaces faces = PieceFaces::kOne;
  std::optional<Time> due;
  std::optional<Time> earliest;
  double weight = 1.0;
  Time created_at;
  std::string surface = "planed";        ///< As parse_wood_surface() reads it.
  std::optional<std::string> over = {};  ///< Recipe name of a finish that lies on it; none: bare.
  std::vector<StoredUnit> units = {};    ///< None: it is finished as a whole.
  std::vector<StoredWork> work = {};     ///< In order; none of a whole piece.

  /// One of its units as if it were a piece. @param unit of this piece.
  [[nodiscard]] StoredPiece only(const StoredUnit& unit) const;
  /// The unit of a name; null where there is none.
  [[nodiscard]] const StoredUnit* unit(const std::string& wanted) const;
};

}  // namespace coatwright
