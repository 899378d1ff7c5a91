#pragma once

#include <optional>
#include <string>
#include <vector>

#include "air/air_record.h"
#include "base/result.h"
#include "plan/plan.h"
#include "recipe/recipe_book.h"
#include "safety/room_air.h"

namespace coatwright {

/// How the piece stands while it dries: which faces one session can coat.
enum class Faces {
  kOne,       ///< One face is finished.
  kTwo,       ///< Lies flat: the second face follows when the first may be turned over.
  kOnPoints,  ///< On points, pin boards or hung: both faces in one session.
};

/// An entry of the piece's log: a coat, a step that was done, or one that was left out.
struct LoggedWork {
  StepKind kind = StepKind::kSand;  ///< kApply: a coat.
  bool left_out = false;
  std::string grit;
  std::vector<int> faces;            ///< 0 and 1; 0 alone of a piece with one face.
  const Product* product = nullptr;  ///< Of a coat, as its recipe was then.
  std::string product_name;          ///< Of a coat, and of one left out.
  Time at;
};

/// A finish that a piece came in with, long dry.
struct ExistingFinish {
  const Product* product = nullptr;  ///< From RecipeBook::finish_on_piece().
  Time since;                        ///< Past all of its windows.

  /// Since when it lies there for a plan that looks back to a moment. Source: judgement; longer
  /// than any recoat window in the recipes.
  static Time before(Time first) { return first - std::chrono::hours(24 * 60); }
};

/// What is to be finished, and with which schedule.
struct PieceRequest {
  std::string name;
  const Schedule* schedule = nullptr;
  const Species* species = nullptr;
  Area area = Area::from_square_metres(0);  ///< Of one face.
  Faces faces = Faces::kOne;
  std::optional<ExistingFinish> over;   ///< What lay on it before the log; none: bare wood.
  std::optional<double> wood_moisture;  ///< As measured, mass of water over dry mass.
  std::vector<LoggedWork> log;          ///< By time.
};

struct PlanRequest {
  PieceRequest piece;
  Time made_at;
  Time from;
  Time by;
  double confidence = 0.9;      ///< 0.5 .. 0.99
  std::vector<Interval> hours;  ///< When people are there, in order, up to the horizon.
  Time horizon;                 ///< The plan is given up here.
  FinishingRoom room = {};      ///< Where films dry.
};

/// Plans one piece, going on from its log: every step at its earliest moment, with abrading first
/// where a window would be missed. Pure: the same request and air give the same plan. Errors:
/// kInputFile or kNotFound from the recipes, kOutOfRange for a schedule that the compatibility
/// table forbids. A plan that does not fit is a Plan, not an error.
[[nodiscard]] Result<Plan> make_plan(const PlanRequest& request,
                                     const RecipeBook& book,
                                     const AirRecord& air);

}  // namespace coatwright
