#include "cli/piece_size.h"

#include <algorithm>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "base/quantity_text.h"
#include "quantity/board.h"
#include "recipe/part_list.h"

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

Result<PieceSize> size_of_parts(const SizeOptions& options) {
  const auto text = read_input_file(options.parts);
  if (!text) {
    return pass_on(text.error(), "--parts");
  }
  const auto parts = read_part_list(*text, options.parts);
  if (!parts) {
    return pass_on(parts.error());
  }
  const bool both =
      std::any_of(parts->begin(), parts->end(), [](const Part& part) { return part.faces == 2; });
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
  return shared_out(area_of(*parts), options.faces.empty() ? usual : faces_of(options.faces));
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
