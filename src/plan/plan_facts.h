#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan/piece_state.h"
#include "plan/plan.h"
#include "plan/planner.h"

/// What a plan says beside its steps, which are there already.
namespace coatwright {

/// A part with all its coats on.
struct FinishedChain {
  std::string piece;
  std::string part;
  const std::vector<std::optional<LaidCoat>>& last_coats;  ///< Per face.
  double confidence;
};

/// When a part may be touched, turned, wrapped, used.
void add_milestones(const FinishedChain& part, DryingClocks& clocks, Plan& plan);

/// What the coats that are still to come need. Errors: from the recipes.
[[nodiscard]] Result<void> add_quantities(const std::vector<const PieceRequest*>& pieces,
                                          const RecipeBook& book,
                                          const AirRecord& air,
                                          Plan& plan);

/// The mechanism of each stage of each product, once. Errors: from the recipes.
[[nodiscard]] Result<void> add_rates(const std::vector<const PieceRequest*>& pieces,
                                     const RecipeBook& book,
                                     Plan& plan);

/// Says by which recipes the coats to come are planned. Errors: from the recipes.
[[nodiscard]] Result<void> add_revisions(const RecipeBook& book, Plan& plan);

/// Where the plan rests on the usual day.
void add_air_warnings(const AirRecord& air, Plan& plan);

/// Wood that was measured to be damper or drier than this air keeps it moves under the film. The
/// mean is over the plan's hours. Source: [wood_handbook2010] eq. 4-5; the two points are
/// judgement.
void add_wood_warning(const PieceRequest& piece, const AirRecord& air, Plan& plan);

/// The air corners over the plan and as far as its milestones and waits look.
[[nodiscard]] std::vector<AirKnot> air_of(const AirRecord& air, const Plan& plan);

}  // namespace coatwright
