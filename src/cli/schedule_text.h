#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "base/units.h"
#include "recipe/recipe_book.h"
#include "recipe/sanding_table.h"

namespace coatwright {

/// A schedule as it is shown, with what else is known of it.
struct ShownSchedule {
  const Schedule& schedule;
  std::vector<std::string> hazards;  ///< At a glance, as hazards_of() gives them.
  const Species* species = nullptr;  ///< The wood it was adapted to; nullptr: as written.
  WoodSurface surface;               ///< The surface it was adapted to.
};

/// The hazards of all products and steps of a schedule in a word or two each; the safety sheet says
/// what to do about them. Errors: kNotFound, kInputFile for a product.
[[nodiscard]] Result<std::vector<std::string>> hazards_of(const Schedule& schedule,
                                                          const RecipeBook& book);

/// A schedule with all of its steps.
[[nodiscard]] std::string schedule_as_text(const ShownSchedule& shown, UnitSystem units);
[[nodiscard]] std::string schedule_as_json(const ShownSchedule& shown);

/// A schedule's entry in a list.
[[nodiscard]] std::string schedule_entry(const ShownSchedule& shown);
/// The entries of a list.
[[nodiscard]] std::string schedules_as_json(const std::vector<ShownSchedule>& all);

}  // namespace coatwright
