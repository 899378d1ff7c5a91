#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "base/units.h"
#include "drying/stage.h"
#include "recipe/part_list.h"

/// A piece as a building job: what of it is finished as one thing, and the work that joins it. The
/// page docs/file-formats/part-lists.md describes the file.
namespace coatwright {

/// How a unit stands while it dries, as its file says.
enum class UnitFaces {
  kAsParts,  ///< One face, or two in turn where a part has both coated.
  kOne,
  kTwo,
  kOnPoints,
};

/// What is finished as one thing: all of it is coated in one session.
struct FinishUnit {
  std::string name;
  std::vector<Part> parts;  ///< Never empty; of units that are apart, one piece of the part each.
  UnitFaces faces = UnitFaces::kAsParts;
  int rack_places = 1;   ///< Taken while it dries.
  std::string schedule;  ///< A finishing schedule of its own; empty: the piece's.

  /// Whether a part has both faces coated.
  [[nodiscard]] bool has_both_faces() const;
  /// "2 x side, 4 x shelf".
  [[nodiscard]] std::string parts_text() const;
};

/// Work on a piece that is no finishing.
struct UnitWork {
  std::string kind;        ///< As a plan writes it: "glue", "dry_fit" ...
  std::string name;        ///< As calendars print it.
  std::vector<int> units;  ///< Indexes into BuildingJob::units, in order; never empty.
  bool before_finish = false;
  Hours work = Hours::from_hours(0);  ///< Attended.
  int people = 1;
  bool at_bench = true;
  std::string glue;              ///< Recipe name, of gluing; else empty.
  Stage needs = Stage::kHandle;  ///< Of the films, where it follows the finishing.
};

struct BuildingJob {
  std::vector<Part> parts;
  /// One, of all parts, where the file divides nothing.
  std::vector<FinishUnit> units;
  std::vector<UnitWork> work;  ///< In the order in which it is done.

  /// Whether it says more than a list of parts.
  [[nodiscard]] bool is_divided() const;
};

/// The name of the unit that all parts make which the file does not divide.
inline constexpr std::string_view kWholeUnit = "all";
/// The name of the unit of all parts that belong to no other.
inline constexpr std::string_view kBodyUnit = "body";

/// Reads a part list with its units and work; a CSV file has parts alone.
/// @param label as of read_part_list(). Errors: as there.
[[nodiscard]] Result<BuildingJob> read_building_job(std::string_view text,
                                                    const std::string& label);

}  // namespace coatwright
