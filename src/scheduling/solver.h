#pragma once

#include <functional>
#include <optional>
#include <string>

#include "scheduling/project.h"

namespace coatwright {

/// How long to search. Effort is counted in nodes, so that the same project and seed give the same
/// schedule on every machine; a clock may only stop it.
struct SearchLimits {
  std::int64_t nodes = 20'000;  ///< Placements of the construction and decisions of the proof.
  unsigned seed = 1;
  std::function<bool()> stop = {};  ///< Asked every few hundred nodes; true ends the search.
};

enum class StoppedBy {
  kProof,   ///< Proven: no schedule is less late, and none that is no later ends earlier; or there
            ///< is no schedule. Nothing is claimed of the sum of ends.
  kBudget,  ///< The nodes are used up.
  kClock    ///< SearchLimits::stop said so.
};

/// Why an activity finds no place.
struct NoPlace {
  int activity = 0;
  std::optional<int> resource;     ///< That was short; none: windows or calendar alone.
  std::optional<int> missed_from;  ///< The activity from which its window closed; none: no window.
};

struct SearchResult {
  std::optional<StartTimes> schedule;
  ProjectCost cost;                 ///< Of the schedule.
  std::int64_t lateness_bound = 0;  ///< No schedule is less late.
  Tick end_bound = 0;               ///< No schedule ends earlier, however late its jobs may be.
  Tick end_bound_no_later = 0;      ///< None that is no later than this one does; with a proof its
                                    ///< own end. Without a schedule as end_bound.
  bool infeasible = false;          ///< Proven: no schedule exists up to the horizon.
  std::optional<NoPlace> no_place;  ///< Where the best try failed; none with a schedule.
  std::int64_t nodes = 0;
  StoppedBy stopped_by = StoppedBy::kBudget;
};

/// Searches for a schedule of least cost, and for bounds that no schedule can beat. Never returns a
/// schedule that breaks a lag, a start set, a resource or an exclusion.
/// @param start_from a schedule to improve; it may break rules, and then only guides. Null: none.
[[nodiscard]] SearchResult solve(const Project& project,
                                 const SearchLimits& limits,
                                 const StartTimes* start_from = nullptr);

}  // namespace coatwright
