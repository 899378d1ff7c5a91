#pragma once

#include <cstdint>
#include <functional>
#include <limits>
#include <memory>
#include <optional>
#include <vector>

#include "scheduling/lateness_rule.h"
#include "scheduling/search_tables.h"

namespace coatwright {

/// How far jobs end past a moment, summed, times their weights. Past 0 it is the sum of ends.
struct Overrun {
  Tick past = 0;
  std::int64_t sum = 0;
};

/// What a schedule must not exceed.
struct CostLimit {
  std::int64_t lateness = std::numeric_limits<std::int64_t>::max();
  Tick end = kNeverTick;
  std::optional<Overrun> overrun = {};
};

enum class ProofOutcome {
  kFound,    ///< A schedule within the limit.
  kNone,     ///< Proven: there is none (with the fixed starts as they are).
  kStopped,  ///< The budget is used up.
};

struct ProofResult {
  ProofOutcome outcome = ProofOutcome::kStopped;
  StartTimes schedule;     ///< With kFound.
  std::int64_t nodes = 0;  ///< Decisions taken.
};

/// Exact search by lazy clause generation: conflicts teach clauses over bounds of the starts.
/// Source: [schutt2013], [ohrimenko2009].
class ConflictSearch {
 public:
  /// @param tables of the project. @param limit what the schedule must keep. @param fixed_starts
  /// per activity: its start where it may not move; empty: all are free. @param hint per activity:
  /// the start to be tried first; empty: the earliest.
  ConflictSearch(SearchTables& tables,
                 const CostLimit& limit,
                 const std::vector<std::optional<Tick>>& fixed_starts,
                 const std::vector<Tick>& hint,
                 unsigned seed);
  ~ConflictSearch();
  ConflictSearch(const ConflictSearch&) = delete;
  ConflictSearch& operator=(const ConflictSearch&) = delete;

  /// A limit at least as strict from now on, with the same moment of an overrun; what was learned
  /// stays. A schedule that was found is tried first the next time.
  void tighten(const CostLimit& limit);
  /// Goes on for at most so many decisions. @param stop asked now and then; true ends it.
  [[nodiscard]] ProofOutcome run(std::int64_t nodes, const std::function<bool()>& stop);
  /// The schedule of the last run that found one.
  [[nodiscard]] const StartTimes& found() const;
  [[nodiscard]] std::int64_t nodes() const;

 private:
  class Search;
  std::unique_ptr<Search> search_;
};

/// One run of a ConflictSearch.
[[nodiscard]] ProofResult search_within(SearchTables& tables,
                                        const CostLimit& limit,
                                        const std::vector<std::optional<Tick>>& fixed_starts,
                                        const std::vector<Tick>& hint,
                                        std::int64_t nodes,
                                        unsigned seed,
                                        const std::function<bool()>& stop);

}  // namespace coatwright
