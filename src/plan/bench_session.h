#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "plan/plan.h"
#include "plan/planner.h"
#include "plan/work_sequence.h"

namespace coatwright {

/// One part of a session, at a fixed distance from the session's start.
struct SessionPart {
  StepKind kind = StepKind::kApply;
  std::chrono::seconds offset{0};
  std::chrono::seconds length{0};
  std::string grit;
  std::string work_source;
  std::string note;
  bool cleans_tools = false;  ///< kClean: the brush, not the piece.
};

/// What is done in one go, inside one opening of the shop: abrade, clean, mix, apply, wipe, rags
/// ...
struct BenchSession {
  std::vector<SessionPart> parts;
  std::chrono::seconds length{0};
  std::chrono::seconds apply_offset{0};  ///< Of the first brush stroke.
  std::chrono::seconds wet_end{0};       ///< Of the last stroke or wipe.
};

/// How long what is wet waits, in the air of its session.
struct HandlingTimes {
  std::chrono::seconds wipe_closes{0};  ///< From a stroke until its excess must be off.
  std::chrono::seconds pot_life{0};     ///< From mixing until it must be used up; 0: no such limit.

  /// The shorter of each.
  [[nodiscard]] HandlingTimes at_most(const HandlingTimes& other) const;
  bool operator==(const HandlingTimes&) const = default;
};

/// The operation by which a product is put on, as the working times name it.
[[nodiscard]] std::string apply_operation(const Product& product, Method method);
/// The operation by which a product's excess is wiped off, as the working times name it.
[[nodiscard]] std::string wipe_operation(const Product& product);
/// The operation of one work of rubbing out, as the working times name it.
[[nodiscard]] std::string rub_out_operation(const WorkItem& work);

/// Working times for the piece at hand.
class SessionPlanner {
 public:
  SessionPlanner(const PlanRequest& request, const WorkingTimes& times)
      : request_(request), times_(times) {}

  /// A single operation over the faces named, such as a sanding grit or turning over.
  /// Errors: kInputFile when the working times lack the operation.
  [[nodiscard]] Result<BenchSession> single(StepKind kind,
                                            const std::string& operation,
                                            const WorkItem& work) const;
  /// A coat with all that belongs to it. @param abrade_grit empty: without abrading.
  /// What is mixed of parts is mixed anew for each section that its pot life allows.
  /// @param times from the drying clock.
  /// Errors: kInputFile as above; kNo when no section is small enough to wipe or use up in time.
  [[nodiscard]] Result<BenchSession> coat(const WorkItem& work,
                                          const std::string& abrade_grit,
                                          const HandlingTimes& times) const;

  /// Dust from sanding settles for this long before a film is laid. Source: judgement.
  static constexpr std::chrono::minutes kSettling{15};
  /// Solvent that washed an oily wood has left it after this long. Source: judgement.
  static constexpr std::chrono::minutes kFlashOff{15};

 private:
  [[nodiscard]] Result<WorkingTime> operation(const std::string& name) const;
  [[nodiscard]] Result<Hours> time_for(const std::string& name, Area area) const;
  [[nodiscard]] Area area_of(const WorkItem& work) const;
  [[nodiscard]] double hardness() const;
  Result<void> add(BenchSession& session,
                   StepKind kind,
                   const std::string& operation,
                   Area area) const;
  Result<void> add_wiped_sections(BenchSession& session,
                                  const WorkItem& work,
                                  Area whole,
                                  std::chrono::seconds wipe_closes) const;
  /// Errors: kNo when no section is small enough to wipe in time.
  Result<void> put_on(BenchSession& session,
                      const WorkItem& work,
                      Area area,
                      std::chrono::seconds wipe_closes) const;
  /// Errors: kOutOfRange when it is not used up in time.
  Result<void> add_batch(BenchSession& session,
                         const WorkItem& work,
                         Area area,
                         const HandlingTimes& times) const;
  Result<void> add_batches(BenchSession& session,
                           const WorkItem& work,
                           const HandlingTimes& times) const;
  Result<void> add_before_coat(BenchSession& session,
                               const WorkItem& work,
                               const std::string& abrade_grit) const;
  Result<void> add_after_coat(BenchSession& session, const WorkItem& work) const;

  const PlanRequest& request_;
  const WorkingTimes& times_;
};

}  // namespace coatwright
