#pragma once

#include <vector>

#include "drying/drying_clock.h"
#include "plan/handover_card.h"
#include "plan/progress.h"
#include "recipe/recipe_book.h"

namespace coatwright {

/// What is not cured after so long is not in sight; as far as a plan's milestones look.
inline constexpr std::chrono::hours kCardHorizon{24 * 200};
/// Of every day that a card names.
inline constexpr double kCardConfidence = 0.9;

/// A part with its coats as they lie, early ones not held back yet.
struct CoatedPart {
  std::string name;
  Progress& progress;
  std::size_t logged = 0;  ///< Coats beyond this place in its log are planned.
};

/// The finish of a part, with the days from which on it bears light and full use. A coat that went
/// on too early is held back in its progress.
[[nodiscard]] CardFinish finish_of(CoatedPart part, const RecipeBook& book, DryingClocks& clocks);

/// Parts that are finished alike stand together, with the later day.
void add_finish(CardFinish finish, std::vector<CardFinish>& all);

}  // namespace coatwright
