#pragma once

#include <optional>
#include <vector>

#include "plan/piece_state.h"
#include "plan/plan.h"
#include "plan/work_sequence.h"

namespace coatwright {

/// A coat whose excess is still to be wiped off.
struct PendingWipe {
  std::vector<int> faces;
  Time opens;
  Time closes;
};

/// How far a piece's finishing has come by its log.
struct Progress {
  std::vector<std::vector<bool>> behind;        ///< Per face, over the scheduled works.
  std::vector<std::vector<LaidCoat>> coats_on;  ///< Per face, lowest first; step: place in the
                                                ///< log, from 1.
  std::vector<bool> abraded;                    ///< Per face: since its last coat.
  std::optional<int> up;                        ///< The face turned up, of a piece that lies flat.
  std::optional<Time> sanded_until;             ///< End of the last sanding.
  std::optional<Time> wetted_at;                ///< Grain raised and not yet cut back.
  std::optional<PendingWipe> wipe;
  bool rags_open = false;            ///< Rags that can ignite are not logged as seen to.
  const Product* rags_of = nullptr;  ///< Whose rags.
  bool rags_overruled = false;       ///< Left out with a reason since: they lie there, but hold
                                     ///< nothing else back.
  std::optional<Time> mixed_at;      ///< Of the last mix, unless the tools were cleaned since.
  std::optional<Time> last_at;       ///< Of the last entry.
  std::vector<int> coats;            ///< Of each entry: the number in the schedule of its coat, or
                                     ///< of the coat that it abrades for; or 0.
  std::vector<PlanWarning> warnings;

  /// @return the faces on which a scheduled work is still to be done.
  [[nodiscard]] std::vector<int> faces_left(std::size_t work) const;
  /// @return the coat on top of each face.
  [[nodiscard]] std::vector<std::optional<LaidCoat>> last_coats() const;
};

/// Ticks a piece's scheduled work off by its log. A coat has everything before it on its face
/// behind it, whether it was logged or not; a grit the coarser ones. What was left out is behind
/// without a coat.
/// @param works scheduled_works() of its schedule. @param now wiping that is not logged and whose
/// window closed before it is taken as done when it closed.
[[nodiscard]] Progress progress_of(const PieceRequest& piece,
                                   const std::vector<WorkItem>& works,
                                   Time now);

/// A coat that went on before the one beneath was ready shuts it in: its drying counts only from
/// when that would have been ready, with a warning. Source: judgement, the cautious side.
void hold_back_early_coats(Progress& progress,
                           const RecipeBook& book,
                           DryingClocks& clocks,
                           const WaitRule& rule);

}  // namespace coatwright
