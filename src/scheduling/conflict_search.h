#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "scheduling/project.h"

namespace coatwright {

/// What a schedule must be better than.
struct CostLimit {
  std::int64_t lateness = std::numeric_limits<std::int64_t>::max();  ///< At most this.
  Tick end = kNeverTick;                                             ///< At most this.
};

enum class ProofOutcome {
  kFound,    ///< A schedule within the limit.
  kNone,     ///< Proven: there is none (with the fixed starts as they are).
  kStopped,  ///< The budget is used up.
};

struct ProofResult {
  ProofOutcome outcome = ProofOutcome::kStopped;
  Schedule schedule;       ///< With kFound.
  std::int64_t nodes = 0;  ///< Decisions taken.
};

/// Exact search by lazy clause generation (conflict learning over bounds of the starts).
/// Source: [schutt2013], [ohrimenko2009].
/// @param fixed_starts per activity: its start where it may not move; empty: all are free.
/// @param hint per activity: the start to be tried first; empty: none.
/// @param nodes at most this many decisions.
/// @param stop asked now and then; true ends the search.
[[nodiscard]] ProofResult search_within(const Project& project,
                                        const CostLimit& limit,
                                        const std::vector<std::optional<Tick>>& fixed_starts,
                                        const std::vector<Tick>& hint,
                                        std::int64_t nodes,
                                        unsigned seed,
                                        const std::function<bool()>& stop);

}  // namespace coatwright
