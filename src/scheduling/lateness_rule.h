#pragma once

#include <optional>
#include <vector>

#include "scheduling/inference.h"
#include "scheduling/start_variables.h"

namespace coatwright {

/// Keeps the jobs' lateness, times their weights and summed, within a limit.
class LatenessRule {
 public:
  LatenessRule(const Project& project, const StartVariables& starts);
  /// As if all jobs were due at one moment.
  LatenessRule(const Project& project, const StartVariables& starts, Tick due);

  /// No more than this from now on.
  void limit(std::int64_t lateness) { limit_ = lateness; }
  /// @return false on a contradiction.
  bool propagate(Inference& inference);
  /// Leaves out what is fixed for good but for what it makes late.
  void fold_fixed(const BoundTrail& trail);
  /// Whether an activity is in a job that can be late.
  [[nodiscard]] bool looks_at(int activity) const;

 private:
  struct Work {
    int activity;
    Tick length;
  };
  struct DueJob {
    std::vector<Work> works;
    Tick due;
    std::int64_t weight;
    Tick known = 0;  ///< How late what is fixed for good makes it.
  };
  /// The work of a job that ends last at its earliest, and how late that is.
  struct Latest {
    std::optional<Work> work;  ///< None: what is known.
    Tick late;
  };
  [[nodiscard]] Latest latest_of(const DueJob& job) const;
  void add(const Project& project, const Job& job, Tick due);

  const StartVariables& starts_;
  std::vector<DueJob> jobs_;
  std::vector<bool> looked_at_;
  std::int64_t known_ = 0;  ///< What jobs that are fixed for good come to.
  std::int64_t limit_ = std::numeric_limits<std::int64_t>::max();
  std::vector<Latest> latest_;
  std::vector<BoundLiteral> because_;
};

}  // namespace coatwright
