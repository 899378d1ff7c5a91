#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "recipe/grits.h"
#include "recipe/recipe_book.h"

namespace coatwright {

/// What the compatibility table says of a coat over the one beneath.
struct PairFinding {
  int step = 0;  ///< Of the schedule, from 1, that lays the upper one.
  const Product* under = nullptr;
  const Product* over = nullptr;
  PairRule rule;

  /// Whether the upper coat must not go on as the schedule has it.
  [[nodiscard]] bool refuses() const;
};

/// "Oil varnish must not go over paste wax: nothing holds on wax"; for a barrier also what would go
/// between.
[[nodiscard]] std::string refusal_of(const PairFinding& finding);

/// Looks at each coat over the one before it, and at the first over what lies on the piece. A
/// product over itself is looked at where a step has several coats. Each pair is named once a step.
/// @param base what lies on the piece already; null: bare wood.
/// Errors: kNotFound for a product or pair that is not known; kInputFile from a recipe's file.
[[nodiscard]] Result<std::vector<PairFinding>> check_pairs(const Schedule& schedule,
                                                           const Product* base,
                                                           const RecipeBook& book);

/// @return the first finding that refuses; null when none does.
[[nodiscard]] const PairFinding* first_refusal(const std::vector<PairFinding>& findings);

/// A change of grit in a schedule's sanding that is not good.
struct GritFinding {
  int step = 0;  ///< Of the schedule, from 1.
  GritRemark remark;
};

/// Looks at each sanding that names its grits. @return its changes that are not good, in order.
[[nodiscard]] std::vector<GritFinding> check_grits(const Schedule& schedule);

/// How unlike two finishes are: the changes that lead from the one's coats to the other's, less for
/// coats of one layer or one kind, and a half for another look. 0 for the same coats.
/// Source: judgement; the edit distance of Levenshtein 1966 over coats.
[[nodiscard]] double unlikeness(const Schedule& one, const Schedule& other, const RecipeBook& book);

/// @return the name of the built-in or own schedule that is most like this one and is not refused
/// on this surface; empty when there is none. Files that cannot be read are passed over.
[[nodiscard]] std::string nearest_working_schedule(const Schedule& schedule,
                                                   const PieceSurface& surface,
                                                   const RecipeBook& book);

}  // namespace coatwright
