#pragma once

#include "scheduling/aiming.h"

namespace coatwright {

/// Asks the conflict search for schedules a little above the bounds. Where they are close, one is
/// found that is far better than what small steps down from the best had reached; where they are
/// not, they rise.
class BoundRaising {
 public:
  /// @param stop asked now and then; true ends a run. May be empty.
  BoundRaising(SearchTables& tables, unsigned seed, const std::function<bool()>& stop);

  /// Goes on for about so many decisions; what does not suffice for a search is kept for the next
  /// run. @param most decisions that may be taken at all.
  void run(std::int64_t nodes, std::int64_t most, ProvenBounds& bounds, Incumbent& best);
  [[nodiscard]] std::int64_t nodes() const { return nodes_; }

 private:
  void ask(const CostLimit& limit, bool on_lateness, ProvenBounds& bounds, Incumbent& best);

  SearchTables& tables_;
  const std::function<bool()>& stop_;
  unsigned seed_;
  bool on_lateness_ = false;
  std::size_t part_ = 0;  ///< Which part of the gap above the bound is asked for.
  std::int64_t nodes_each_;
  std::int64_t left_ = 0;
  std::int64_t nodes_ = 0;
};

}  // namespace coatwright
