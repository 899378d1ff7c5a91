#pragma once

#include <functional>
#include <memory>

#include "scheduling/conflict_search.h"
#include "scheduling/improvement.h"

namespace coatwright {

/// What is proven of all schedules.
struct ProvenBounds {
  std::int64_t lateness = 0;  ///< None is less late.
  Tick end = 0;               ///< None that is no later than the best ends earlier.
};

/// Asks the conflict search for schedules well below the best one, half way to the bound at first,
/// and nearer to the best after each search that was given up: small steps down would be spent on
/// ends that differ by minutes, where a night lies between the good ones.
class Aiming {
 public:
  /// @param stop asked now and then; true ends a run. May be empty.
  Aiming(SearchTables& tables, unsigned seed, const std::function<bool()>& stop);

  /// Goes on for at most so many decisions.
  void run(std::int64_t nodes, ProvenBounds& bounds, Incumbent& best);
  [[nodiscard]] std::int64_t nodes() const { return nodes_; }

 private:
  ProofOutcome ask(const CostLimit& limit, std::int64_t nodes, Incumbent& best);

  SearchTables& tables_;
  const std::function<bool()>& stop_;
  unsigned seed_;
  std::int64_t given_up_ = -1;  ///< Nothing was found down to this lateness or end.
  bool on_lateness_ = false;
  std::int64_t nodes_each_;
  std::int64_t nodes_ = 0;
};

}  // namespace coatwright
