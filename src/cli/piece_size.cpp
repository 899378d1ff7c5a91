#include "cli/piece_size.h"

#include <algorithm>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "base/quantity_text.h"
#include "quantity/board.h"
#include "recipe/building_job.h"

namespace coatwright {
namespace {

constexpr double kLargest = 1000.0;  // m2, as --area allows

PieceFaces faces_of(const std::string& text) {
  return text == "2"        ? PieceFaces::kTwo
         : text == "points" ? PieceFaces::kOnPoints
                            : PieceFaces::kOne;
}

/// The piece of a whole area, of one face or of two.
Result<PieceSize> shared_out(Area whole, PieceFaces faces) {
  const double count = faces == PieceFaces::kOne ? 1.0 : 2.0;
  const Area face = Area::from_square_metres(whole.square_metres() / count);
  if (face.square_metres() > kLargest) {
    return fail(ErrorCode::kOutOfRange,
                fmt::format("the parts have {:.0f} m2 a face: at most {:.0f} m2 is allowed",
                            face.square_metres(),
                            kLargest));
  }
  return PieceSize{face, faces};
}

Result<PieceSize> size_of_top(const SizeOptions& options) {
  const auto size = parse_dimensions(options.top);
  if (!size) {
    return pass_on(size.error(), "--top");
  }
  const PieceFaces faces = faces_of(options.faces);
  return shared_out(board_area(*size, faces == PieceFaces::kOne ? 1 : 2, true), faces);
}

/// A unit's faces: as it says itself, or as its parts have them.
PieceFaces faces_of(const FinishUnit& unit) {
  switch (unit.faces) {
    case UnitFaces::kOne:
      return PieceFaces::kOne;
    case UnitFaces::kTwo:
      return PieceFaces::kTwo;
    case UnitFaces::kOnPoints:
      return PieceFaces::kOnPoints;
    case UnitFaces::kAsParts:
      break;
  }
  return unit.has_both_faces() ? PieceFaces::kTwo : PieceFaces::kOne;
}

Result<StoredUnit> stored_unit(const FinishUnit& unit) {
  const auto size = shared_out(area_of(unit.parts), faces_of(unit));
  if (!size) {
    return pass_on(size.error(), unit.name);
  }
  return StoredUnit{
      unit.name, size->face, size->faces, unit.rack_places, unit.schedule, unit.parts_text()};
}

StoredWork stored_work(const UnitWork& work) {
  return {work.kind,
          work.name,
          work.units,
          work.before_finish,
          work.work,
          work.people,
          work.at_bench,
          work.glue,
          work.needs};
}

/// The size of a piece that its list divides: that of its parts together.
Result<PieceSize> divided_size(const BuildingJob& job) {
  const bool both = std::any_of(job.units.begin(), job.units.end(), [](const FinishUnit& unit) {
    return unit.has_both_faces();
  });
  const PieceFaces usual = both ? PieceFaces::kTwo : PieceFaces::kOne;
  auto size =
      shared_out(area_of(job.parts), job.units.size() == 1 ? faces_of(job.units[0]) : usual);
  if (!size) {
    return size;
  }
  for (const FinishUnit& unit : job.units) {
    auto stored = stored_unit(unit);
    if (!stored) {
      return pass_on(stored.error());
    }
    size->units.push_back(std::move(*stored));
  }
  for (const UnitWork& work : job.work) {
    size->work.push_back(stored_work(work));
  }
  return size;
}

/// The size of a piece that is finished as a whole.
Result<PieceSize> undivided_size(const BuildingJob& job, const SizeOptions& options) {
  const bool both = job.units.front().has_both_faces();
  if (!options.faces.empty() && (options.faces == "1") == both) {
    return fail(ErrorCode::kUsage,
                both ? fmt::format("--faces 1: '{}' has parts with both faces; 2 or points is "
                                   "allowed",
                                   options.parts)
                     : fmt::format("--faces {}: every part of '{}' has one face; 1 is allowed",
                                   options.faces,
                                   options.parts));
  }
  const PieceFaces usual = both ? PieceFaces::kTwo : PieceFaces::kOne;
  return shared_out(area_of(job.parts), options.faces.empty() ? usual : faces_of(options.faces));
}

Result<PieceSize> size_of_parts(const SizeOptions& options) {
  const auto text = read_input_file(options.parts);
  if (!text) {
    return pass_on(text.error(), "--parts");
  }
  const auto job = read_building_job(*text, options.parts);
  if (!job) {
    return pass_on(job.error());
  }
  if (!job->is_divided()) {
    return undivided_size(*job, options);
  }
  if (!options.faces.empty()) {
    return fail(ErrorCode::kUsage,
                fmt::format("--faces {}: '{}' says itself how its units stand; leave it out",
                            options.faces,
                            options.parts));
  }
  return divided_size(*job);
}

}  // namespace

void add_size_options(CLI::App& command, SizeOptions& options) {
  command.add_option("--area", options.area, "Area of one face, such as 1.9m2 or 20sqft")
      ->type_name("AREA");
  command
      .add_option("--top", options.top, "Instead: a board with its edges, such as 1200x600x30mm")
      ->type_name("SIZE");
  command.add_option("--parts", options.parts, "Instead: a part list, TOML or CSV")
      ->type_name("FILE");
  command.add_option("--faces", options.faces, "1, 2 in turn, or points: both in one go [1]")
      ->check(CLI::IsMember({"1", "2", "points"}))
      ->type_name("FACES");
}

Result<PieceSize> piece_size(const SizeOptions& options) {
  const int ways = (options.area.empty() ? 0 : 1) + (options.top.empty() ? 0 : 1) +
                   (options.parts.empty() ? 0 : 1);
  if (ways != 1) {
    return fail(ErrorCode::kUsage,
                "say how large the piece is by one of --area 1.9m2 (or 20sqft), --top "
                "1200x600x30mm, --parts FILE");
  }
  if (!options.top.empty()) {
    return size_of_top(options);
  }
  if (!options.parts.empty()) {
    return size_of_parts(options);
  }
  const auto area = parse_area(options.area);
  if (!area) {
    return pass_on(area.error(), "--area");
  }
  return PieceSize{*area, faces_of(options.faces)};
}

}  // namespace coatwright
