#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan/planner.h"
#include "recipe/glue.h"

/// A whole shop's work as it is to be planned: pieces of parts, what joins them, and what there is
/// to do it with.
namespace coatwright {

/// What a shop has. Where a count is not set the shop did not say, and it is not short of it.
struct ShopResources {
  std::optional<int> spray_places;
  std::optional<int> rack_places;
  std::optional<int> benches;
  bool finishing_apart =
      false;                ///< Films dry in a room of their own, out of the dust of the bench.
  FinishingRoom room = {};  ///< Where films dry.
};

/// Work on a piece that is no finishing: gluing up, masking, assembling ...
struct BuildWork {
  StepKind kind = StepKind::kAssemble;  ///< kSand .. kDeliver; never kApply.
  std::string name;                     ///< As the piece's file calls it, for the calendar.
  std::vector<int> parts;               ///< Indexes into JobRequest::parts; never empty.
  bool before_finish = false;  ///< Before the finishing of its parts; else after their last coat.
  Hours work = Hours::from_hours(0);  ///< Attended.
  int people = 1;
  bool at_bench = true;
  const Glue* glue = nullptr;  ///< kGlue: stays on the bench in clamps after it.
  Stage needs =
      Stage::kHandle;  ///< After finishing: what the films on its parts must have reached.
  std::string source;
  std::optional<Time> done_at = {};  ///< By the log; only its clamps and glue line still count.
};

/// A part that is finished as one thing, with a chain of its own.
struct PartRequest {
  std::string name;     ///< "all" where the piece has no parts.
  PieceRequest finish;  ///< Its name is the piece's; area and log are the part's own.
  int rack_places = 1;  ///< Taken while it dries.
};

/// A piece: parts, and the work that joins them. Work that shares a part is done in its order here.
struct JobRequest {
  std::string name;
  std::optional<Time> earliest;
  std::optional<Time> due;
  double weight = 1.0;
  std::vector<PartRequest> parts;
  std::vector<BuildWork> build;
};

struct ShopRequest {
  std::vector<JobRequest> jobs;
  ShopResources resources;
  std::vector<StaffedHours> hours;  ///< In order, up to the horizon.
  Time made_at;
  Time from;
  Time horizon;
  double confidence = 0.9;
  std::int64_t effort = 20'000;  ///< Search nodes.
  unsigned seed = 1;
  /// Whether the search is over once every date is met; what else could be gained is left.
  bool only_dates = false;
};

}  // namespace coatwright
