#pragma once

#include <set>
#include <string>
#include <vector>

#include "plan/bench_session.h"
#include "plan/coat_placement.h"
#include "plan/piece_state.h"
#include "plan/plan.h"
#include "plan/progress.h"

namespace coatwright {

/// Writes placed work down as the plan's steps, each with the waits that it followed.
class StepWriter {
 public:
  StepWriter(const PlanRequest& request, DryingClocks& clocks, WaitRule rule)
      : request_(request), clocks_(clocks), rule_(rule) {}

  /// A part of a session. @param under the product beneath, or null on bare wood. The reference
  /// holds until the next step is written.
  PlanStep& write(const SessionPart& part,
                  Time start,
                  const WorkItem& work,
                  const Product* under = nullptr);
  /// What the log has as done, first of all; each entry's step has its place in the log as id.
  void write_log(const Progress& progress);
  /// @return the id of the last step of a kind that was logged, or 0.
  [[nodiscard]] int logged(StepKind kind) const;
  /// Whether something is written that is still to be done.
  [[nodiscard]] bool has_open_steps() const { return !steps_.empty() && !steps_.back().done; }
  /// The step written last.
  [[nodiscard]] PlanStep& last() { return steps_.back(); }
  /// A stretch of drying that needs nobody.
  void write_drying(const LaidCoat& coat, Time start, Time end);
  /// All steps of a coat's session. @return the coat as it lies then.
  LaidCoat write_coat(const WorkItem& work,
                      const PlacedCoat& placed,
                      const PieceState& state,
                      CoatPlacement& placement);
  /// Adds what the step waited for on these faces.
  void add_stage_waits(PlanStep& step,
                       Stage stage,
                       const std::vector<int>& faces,
                       const PieceState& state);
  /// Adds what rubbing out waited for.
  void add_rub_out_waits(PlanStep& step, const WorkItem& work, const PieceState& state);
  /// Adds a wait for something that is no coat, such as wetted wood.
  void add_wait(PlanStep& step, Wait about, const StageTiming& timing, CoatProgress drying);

  /// Adds what the wiping of a coat waited for. @param apply_step of the coat. @param wetted its
  /// last stroke.
  void add_wipe_wait(PlanStep& step, int apply_step, Time wetted, const Product& product);

  /// Adds until when a mix must be used up. @param mix_step that stirred it, which ended at
  /// `mixed`.
  void add_pot_life_wait(PlanStep& step, int mix_step, Time mixed, const Product& product);

  [[nodiscard]] int next_id() const { return next_id_; }
  [[nodiscard]] std::vector<PlanStep> take_steps() { return std::move(steps_); }

 private:
  void add_note(PlanStep& step, std::string text);
  void add_pair_notes(PlanStep& step, const RecoatChoice& choice);
  void add_recoat_waits(PlanStep& step, const PlacedCoat& placed, CoatPlacement& placement);
  [[nodiscard]] std::string face_name(const std::vector<int>& faces) const;

  const PlanRequest& request_;
  DryingClocks& clocks_;
  WaitRule rule_;
  int next_id_ = 1;
  std::vector<PlanStep> steps_;
  std::set<std::string> said_;  ///< Notes that stand once in a plan.
};

}  // namespace coatwright
