#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "recipe/recipe_book.h"
#include "recipe/sanding_table.h"
#include "recipe/schedule.h"
#include "recipe/tables.h"

/// The parts of adaptation.h's work, each of which changes the schedule further.
namespace coatwright {

struct AdaptationGround {
  const Species& species;
  const WoodSurface& start;
  const RecipeBook& book;
  const SandingTable& sanding;
};

/// Adds a sentence to a step's note.
void add_note(ScheduleStep& step, std::string_view sentence);

/// @return the index of the first coat; the schedule has one.
[[nodiscard]] std::size_t first_coat(const Schedule& schedule);

/// @return the product of the last coat before a step; nullptr where there is none.
[[nodiscard]] Result<const Product*> product_before(const Schedule& schedule,
                                                    std::size_t step,
                                                    const RecipeBook& book);

/// Leaves out the steps that are for other woods.
/// Errors: kOutOfRange where no coat is left; kNotFound, kInputFile for its product.
[[nodiscard]] Result<void> leave_out_other_woods(Schedule& schedule,
                                                 const AdaptationGround& ground);

/// Puts a wash coat before a penetrating stain on a wood that blotches.
[[nodiscard]] Result<void> even_the_stain(Schedule& schedule, const AdaptationGround& ground);

/// Washes an oily wood, and parts it from what cures by oxygen.
[[nodiscard]] Result<void> part_from_oils(Schedule& schedule, const AdaptationGround& ground);

/// Raises the grain before water does.
[[nodiscard]] Result<void> raise_the_grain(Schedule& schedule, const AdaptationGround& ground);

/// Fills in the grits and waits which the schedule leaves open.
[[nodiscard]] Result<void> choose_grits(Schedule& schedule, const AdaptationGround& ground);

}  // namespace coatwright
