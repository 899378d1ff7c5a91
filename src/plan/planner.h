#pragma once

#include <optional>
#include <string>
#include <vector>

#include "air/air_record.h"
#include "base/result.h"
#include "plan/plan.h"
#include "recipe/recipe_book.h"

namespace coatwright {

/// How the piece stands while it dries: which faces one session can coat.
enum class Faces {
  kOne,       ///< One face is finished.
  kTwo,       ///< Lies flat: the second face follows when the first may be turned over.
  kOnPoints,  ///< On points, pin boards or hung: both faces in one session.
};

/// What is to be finished, and with which schedule.
struct PieceRequest {
  std::string name;
  const Schedule* schedule = nullptr;
  const Species* species = nullptr;
  Area area = Area::from_square_metres(0);  ///< Of one face.
  Faces faces = Faces::kOne;
};

struct PlanRequest {
  PieceRequest piece;
  Time made_at;
  Time from;
  Time by;
  double confidence = 0.9;      ///< 0.5 .. 0.99
  std::vector<Interval> hours;  ///< When people are there, in order, up to the horizon.
  Time horizon;                 ///< The plan is given up here.
};

/// Plans one piece: every step at its earliest moment, with abrading first where a window would be
/// missed. Pure: the same request and air give the same plan.
/// Errors: kInputFile or kNotFound from the recipes, kOutOfRange for a schedule that the
/// compatibility table forbids. A plan that does not fit is a Plan, not an error.
[[nodiscard]] Result<Plan> make_plan(const PlanRequest& request,
                                     const RecipeBook& book,
                                     const AirRecord& air);

}  // namespace coatwright
