#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "recipe/recipe_book.h"

namespace coatwright {

/// Which schedules a list is to show; empty: any.
struct ScheduleFilter {
  std::string suits;
  std::string look;
  std::string sheen;
  std::string tool;
  std::string skill;  ///< No more than this.
  std::string species;
};

struct FilteredSchedules {
  std::vector<const Schedule*> schedules;  ///< That pass, by name.
  std::vector<Error> bad;                  ///< Of files that cannot be read: they hide no other.
};

/// A schedule passes a wood when it can be adapted to it.
/// Errors: kNotFound for a word that no schedule has, or an unknown wood.
[[nodiscard]] Result<FilteredSchedules> filtered_schedules(const ScheduleFilter& filter,
                                                           const RecipeBook& book);

}  // namespace coatwright
