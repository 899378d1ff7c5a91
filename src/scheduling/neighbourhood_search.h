#pragma once

#include <functional>
#include <vector>

#include "scheduling/conflict_search.h"
#include "scheduling/improvement.h"

namespace coatwright {

/// Improves the best schedule by freeing a part of it, keeping the rest where it is, and asking the
/// conflict search for a better place of that part. Source: large neighbourhood search [shaw1998].
class NeighbourhoodSearch {
 public:
  /// @param stop asked now and then; true ends a run. May be empty.
  NeighbourhoodSearch(SearchTables& tables,
                      const LagNetwork& network,
                      unsigned seed,
                      const std::function<bool()>& stop);

  /// Goes on for so many decisions at most. @param lateness_bound proven: where the best has come
  /// down to it, an earlier end is looked for.
  void run(std::int64_t nodes, std::int64_t lateness_bound, Incumbent& best);
  [[nodiscard]] std::int64_t nodes() const { return nodes_; }

 private:
  /// The part that is freed.
  class Part;

  void free_what_costs(const Incumbent& best, bool for_lateness, Part& part);
  void free_last(const Incumbent& best, Part& part);
  void free_late_job(const Incumbent& best, Part& part);
  void free_more(const Incumbent& best, Part& part);
  void free_stretch(const Incumbent& best, double most, Part& part);
  void free_groups(const Incumbent& best, Part& part);
  void free_rivals(const Incumbent& best, Part& part);
  [[nodiscard]] Tick end_of(const Incumbent& best, int activity) const;

  SearchTables& tables_;
  const Project& project_;
  const std::function<bool()>& stop_;
  Random random_;
  std::vector<std::vector<int>> groups_;  ///< Jobs, and what lags join.
  std::vector<int> group_of_;
  std::vector<std::vector<int>> users_;  ///< Per resource: the activities that take of it.
  double size_;                          ///< How many activities are freed.
  std::int64_t nodes_ = 0;
};

}  // namespace coatwright
