#pragma once

#include <optional>
#include <string>
#include <vector>

#include "drying/coat_progress.h"
#include "plan/planner.h"
#include "recipe/product.h"

namespace coatwright {

/// How surely and how long a chain waits.
struct WaitRule {
  double deviate;  ///< Of the confidence: openings are taken there, closings at its negative.
  Time horizon;    ///< The plan is given up here.
};

/// A coat that lies on a face.
struct LaidCoat {
  const Product* product = nullptr;
  int step = 0;             ///< Id of the step that ended it (apply or wipe).
  Time begun;               ///< Its first brush stroke: closings run from here.
  Time ended;               ///< Its last: openings run from here.
  double film_ratio = 1.0;  ///< Wet film over the product's reference.
  std::optional<Thinning> thinning;
  bool came_in = false;  ///< The piece came in with it, at an unknown time: it is long dry.

  /// A stage or window of its product as it is for this coat's film and thinner.
  [[nodiscard]] StageTiming adapted(const StageTiming& timing) const;
  /// How long it dries to a stage, for its film. Nothing when its product has no such stage.
  [[nodiscard]] std::optional<StageTiming> timing(Stage stage) const;
  /// When it is past its product's critical stage, until which the air must keep the limits: its
  /// end where there is no such stage; nothing when that is beyond the horizon.
  [[nodiscard]] std::optional<Time> past_critical_stage(DryingClocks& clocks,
                                                        const WaitRule& rule) const;
  /// Below this temperature nothing is credited.
  [[nodiscard]] std::optional<Temperature> gate() const;
  [[nodiscard]] CoatProgress since_end(DryingClocks& clocks) const {
    return {clocks, ended, gate()};
  }
  [[nodiscard]] CoatProgress since_begin(DryingClocks& clocks) const {
    return {clocks, begun, gate()};
  }
};

/// Gives a coat the film and the thinner of its step.
void set_film(LaidCoat& coat, const ScheduleStep& step);

/// Wet film of a coat over the film for which its product's stages hold; 1 where none is stated.
[[nodiscard]] double film_ratio_of(const ScheduleStep& step, const Product& product);

/// How a piece stands while its chain of work is placed.
struct PieceState {
  Time cursor;                                      ///< The maker is free from here on.
  std::optional<Time> sanded_until;                 ///< End of the last sanding in the room.
  std::vector<std::optional<LaidCoat>> last_coats;  ///< Per face.
  std::vector<bool> abraded;                        ///< Per face: since its last coat.

  [[nodiscard]] std::vector<int> every_face() const;
  [[nodiscard]] const std::optional<LaidCoat>& on(int face) const {
    return last_coats[static_cast<std::size_t>(face)];
  }
  /// @return when a stage is reached on all the faces named that carry a coat, the cursor at the
  /// earliest. Errors: kNo, with the reason, when that is beyond the horizon.
  [[nodiscard]] Result<Time> all_reached(Stage stage,
                                         const std::vector<int>& faces,
                                         DryingClocks& clocks,
                                         const WaitRule& rule) const;
  /// @return when the last coats of the faces named may be rubbed out, the cursor at the earliest.
  /// Errors: kNo, with the reason, when that is beyond the horizon.
  [[nodiscard]] Result<Time> rub_out_ready(const ScheduleStep& step,
                                           const std::vector<int>& faces,
                                           DryingClocks& clocks,
                                           const WaitRule& rule) const;
};

/// How long a coat dries until it may be rubbed out: the schedule's wait, or its full cure.
[[nodiscard]] std::optional<StageTiming> rub_out_timing(const ScheduleStep& step,
                                                        const LaidCoat& coat);

/// How long after a stroke its excess must be off: the label's time, or sooner in warm air.
/// @return 0 where the product is not wiped off.
[[nodiscard]] std::chrono::seconds wipe_closes(const Product& product,
                                               Time at,
                                               DryingClocks& clocks);

/// From mixing until a product must be used up: the low end of its pot life, or sooner in warm air.
/// @return 0 where it has none.
[[nodiscard]] std::chrono::seconds pot_life_of(const Product& product,
                                               Time mixed,
                                               DryingClocks& clocks);

/// Why a coat does not come to a stage in time, in a sentence.
[[nodiscard]] std::string never_dries(const LaidCoat& coat, std::string_view stage);

}  // namespace coatwright
