#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "plan/coat_placement.h"
#include "plan/piece_state.h"
#include "plan/plan.h"
#include "plan/planner.h"
#include "plan/progress.h"
#include "plan/work_sequence.h"

namespace coatwright {

/// A session of the chain with its place.
struct PlacedSession {
  std::size_t work = 0;     ///< Place among the works that were to be placed.
  bool cuts_grain = false;  ///< kRaiseGrain: cutting the raised fibres back, not the wetting.
  BenchSession session;
  Time start;
  int first_step = 0;       ///< Id.
  std::size_t option = 0;   ///< kCoat: its way to recoat ...
  std::size_t options = 0;  ///< ... of so many.
};

/// Where the sessions of a chain are to lie, as a plan of several pieces has it.
struct Prescription {
  std::optional<Time> open_from;            ///< For what a log left open; none: at once.
  std::vector<PrescribedSession> sessions;  ///< In the chain's order; beyond them all is free ...
  std::optional<std::string> stops_with;    ///< ... or, where set, not planned, for this reason.
};

/// The chain of one piece's work with its times, or as much of it as found a place.
struct Chain {
  std::vector<PlanStep> steps;
  std::vector<std::optional<LaidCoat>> last_coats;   ///< Per face.
  std::vector<std::optional<LaidCoat>> first_coats;  ///< Per face: by the log, wiped.
  Time open_until;                                   ///< When what the log left open is done.
  std::vector<PlacedSession> sessions;
  std::vector<PlanWarning> warnings;
  std::map<std::string, std::chrono::seconds> held_up;  ///< By reason.
  std::optional<std::string> stopped_by;  ///< Why the next step finds no place; none: complete.
  std::optional<Time> finish;
  std::int64_t placements = 0;  ///< Places tried.
};

/// A part's work with the chain that it makes.
struct PartChain {
  std::vector<WorkItem> works;
  Chain alone;  ///< Placed as if it were the only work in the shop.
};

/// How wetted wood dries before its raised grain is cut back: overnight in practice.
/// Source: [trade_finishing_web].
[[nodiscard]] StageTiming raised_grain_timing();

/// Whether a chain ends before another, or comes further where none ends.
[[nodiscard]] bool ends_earlier(const Chain& a, const Chain& b);

/// Places the work one after another, going on from the piece's log, each at its earliest moment.
/// Since every wait is an integral of a rate that is never negative, starting later never makes
/// anything ready earlier, and the earliest moments are the best but for windows that close; a coat
/// that would miss one is abraded first.
/// @param prescription where sessions are to lie; null: as early as can be.
/// Errors: from the recipes.
[[nodiscard]] Result<Chain> place_chain(const PlanRequest& request,
                                        const Progress& progress,
                                        const std::vector<WorkItem>& works,
                                        Strictness strictness,
                                        const RecipeBook& book,
                                        DryingClocks& clocks,
                                        const Prescription* prescription = nullptr);

}  // namespace coatwright
