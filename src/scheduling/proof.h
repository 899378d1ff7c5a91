#pragma once

#include <functional>
#include <memory>
#include <optional>

#include "scheduling/aiming.h"

namespace coatwright {

/// Tries to prove that the best schedule cannot be beaten, in lateness first and then in its end,
/// and finds better ones on the way. It goes on where it was stopped.
class Proof {
 public:
  /// @param stop asked now and then; true ends a run. May be empty.
  Proof(SearchTables& tables, unsigned seed, const std::function<bool()>& stop);

  /// Takes so many decisions at most. @return whether it is over: proven that no schedule is better
  /// than the best, or that there is none at all.
  bool run(std::int64_t nodes, ProvenBounds& bounds, Incumbent& best);
  [[nodiscard]] std::int64_t nodes() const { return nodes_; }

 private:
  [[nodiscard]] CostLimit limit_below(const Incumbent& best, const ProvenBounds& bounds) const;
  void begin(const CostLimit& limit, const Incumbent& best);

  SearchTables& tables_;
  unsigned seed_;
  const std::function<bool()>& stop_;
  std::unique_ptr<ConflictSearch> search_;
  bool on_lateness_ = false;  ///< What search_ looks at.
  CostLimit limit_;
  std::int64_t nodes_ = 0;
};

}  // namespace coatwright
