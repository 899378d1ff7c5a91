#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "air/air_record.h"
#include "plan/plan.h"
#include "plan/verdict.h"
#include "recipe/defect.h"
#include "recipe/sanding_table.h"

/// Traces a defect of a finish back to what was off with the coats of a piece. It names suspects
/// and never a culprit: a log does not hold all that was done.
namespace coatwright {

/// One entry of a piece's log, as a fault is traced in it.
struct TracedWork {
  std::int64_t entry = 0;
  StepKind kind = StepKind::kApply;
  Time at;
  std::string grit;
  std::string part;              ///< Empty: the whole piece.
  std::vector<int> faces = {0};  ///< 0 and 1; 0 alone of a piece with one face.
  // Of a coat:
  const Product* product = nullptr;       ///< As its recipe was then.
  const ScheduleStep* laid_by = nullptr;  ///< The schedule's step for its film; null: as usual.
  std::vector<Finding> findings = {};     ///< As they were told then.
  std::optional<AirState> air = {};       ///< As it was kept then.
  std::optional<Volume> amount = {};
  std::optional<Area> face_area = {};  ///< Of one face of what it went on; none: not known.
};

/// A measurement of the wood's moisture.
struct WoodReading {
  std::int64_t entry = 0;
  Time at;
  std::string part;  ///< Empty: the whole piece.
  double percent = 0;
};

/// What is known of the piece with the defect.
struct FaultCase {
  std::vector<TracedWork> works;  ///< By time; none struck out or left out.
  Time now;                       ///< Later air is not looked at.
  std::vector<WoodReading> readings = {};
  const Species* species = nullptr;       ///< Null: not known.
  const SandingTable* sanding = nullptr;  ///< Null: grits are not looked at.
  bool came_in_finished = false;          ///< Its first coat did not go on bare wood.
};

/// A coat that may have brought the defect about.
struct Suspect {
  const DefectTrigger* trigger = nullptr;  ///< Of the defect.
  const TracedWork* coat = nullptr;        ///< Of the case.
  bool strong = false;           ///< A limit or window clearly not kept; else it speaks weakly.
  std::optional<double> chance;  ///< That it was right all the same.
  std::chrono::seconds off{0};   ///< How early or late; 0 for others.
  double by = 0;                 ///< How far off, to compare suspects of one sign.
  std::string found;             ///< What was off, with its figures; part of a sentence.
  std::string to_do;             ///< As the verdict told it; may be empty.
  std::string source;            ///< Of the limit or window that was not kept; may be empty.
};

/// The suspects, most likely first: those that speak strongly before the weak, then by the order of
/// the defect's triggers, then those further off, then the later coat. A finding with which the
/// coat was right with a chance of half or more is weak, and so is a mere caution.
/// Source: order and weights are [judgement].
/// @param air good from the first coat on. The suspects point into the defect and the case.
[[nodiscard]] std::vector<Suspect> trace_fault(const Defect& defect,
                                               const FaultCase& piece,
                                               const AirRecord& air);

}  // namespace coatwright
