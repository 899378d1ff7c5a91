#pragma once

#include <array>
#include <memory>

#include "scheduling/improvement.h"

namespace coatwright {

/// Searches among the schedules that keep each side of an exclusion to its part of the day
/// (divided_days.h), from one of its own. In a large project the search of all schedules comes only
/// slowly to those in which hardly an hour is lost between the sides.
///
/// It has two lanes that may run at the same time, on two threads: each searches from its own best,
/// and they share what they found between runs, so that the outcome does not depend on which of
/// them is quicker.
class DividedSearch {
 public:
  static constexpr int kLanes = 2;
  using Stops = std::array<std::function<bool()>, kLanes>;

  /// @param windows of the project, drawn from all lags. @param stops one per lane, asked now and
  /// then from where that lane runs; true ends a run.
  /// @return null where there is nothing to divide, or no schedule could be left.
  [[nodiscard]] static std::unique_ptr<DividedSearch> of(const Project& project,
                                                         const LagNetwork& network,
                                                         const Windows& windows,
                                                         unsigned seed,
                                                         Stops stops);
  ~DividedSearch();
  DividedSearch(const DividedSearch&) = delete;
  DividedSearch& operator=(const DividedSearch&) = delete;

  /// Builds a first schedule, for so many placements at most. @return whether there is one.
  [[nodiscard]] bool build(std::int64_t placements);
  /// Goes on in a lane for so many nodes at most. @param lateness_bound proven of the project.
  void run(int lane, std::int64_t nodes, std::int64_t lateness_bound);
  /// Whether no better schedule is known than the best of the lanes.
  [[nodiscard]] bool leads(const Incumbent& best) const;
  /// Gives the best of the lanes to both, and to the search of all schedules.
  void share(Incumbent& best);
  [[nodiscard]] std::int64_t nodes() const;

 private:
  struct Parts;
  explicit DividedSearch(std::unique_ptr<Parts> parts);

  std::unique_ptr<Parts> parts_;
};

}  // namespace coatwright
