#pragma once

#include <vector>

#include "cli/handover_coats.h"
#include "report/handover_card.h"

namespace coatwright {

/// What is not cured after so long is not in sight; as far as a plan's milestones look.
inline constexpr std::chrono::hours kCardHorizon{24 * 200};
/// Of every day that a card names.
inline constexpr double kCardConfidence = 0.9;

/// The finish of a part, with the days from which on it bears light and full use. A coat that went
/// on too early is held back in its progress.
[[nodiscard]] CardFinish finish_of(CoatedPart& part, const RecipeBook& book, DryingClocks& clocks);

/// Parts that are finished alike stand together, with the later day.
void add_finish(CardFinish finish, std::vector<CardFinish>& all);

}  // namespace coatwright
