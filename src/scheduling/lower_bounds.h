#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "scheduling/usable_capacity.h"
#include "scheduling/windows.h"

namespace coatwright {

/// Bounds that no schedule can beat, from windows and from the energy that pools can give.
/// Source: energetic reasoning over task intervals and destructive improvement [klein1999];
/// openings filled by whole activities and the least length of holds are ours.
class LowerBounds {
 public:
  /// @param windows drawn from all lags.
  LowerBounds(const Project& project, const LagNetwork& network, const Windows& windows);

  /// @param known an end that a schedule has; the bound is not above it. @param stop asked now and
  /// then; true ends the search for a better bound. May be empty.
  [[nodiscard]] Tick end_bound(Tick known, const std::function<bool()>& stop) const {
    return end_bound(windows_, known, stop);
  }
  /// For the schedules inside narrower windows.
  [[nodiscard]] Tick end_bound(const Windows& within,
                               Tick known,
                               const std::function<bool()>& stop) const;
  /// @return windows that hold each schedule of at most this lateness; none: there is none. As the
  /// other jobs have their least lateness at least, what is left of it is a deadline for each job.
  [[nodiscard]] std::optional<Windows> no_later_than(std::int64_t lateness) const;
  /// For the jobs' lateness times weight, summed.
  [[nodiscard]] std::int64_t lateness_bound() const;

  [[nodiscard]] const std::vector<Pool>& pools() const { return pools_; }
  /// Per pool.
  [[nodiscard]] const std::vector<UsableCapacity>& usable() const { return usable_; }
  /// From the start of an activity to the end of all that must follow it.
  [[nodiscard]] Tick tail(int activity) const { return tails_[activity]; }
  /// From the start of an activity to the end of what must follow it in its job.
  [[nodiscard]] Tick job_tail(int activity) const;

 private:
  /// What must be given between the earliest begin and the latest end of something.
  struct Item {
    int begin_activity;
    Tick begin_offset;
    int end_activity;
    Tick end_offset;
    bool end_is_free;  ///< No activity closes it: it is not part of what must be over.
    std::int64_t energy;
  };

  /// What a job needs of one pool.
  struct Need {
    Tick due;
    int weight;
    std::int64_t energy;
    Tick begin;  ///< The earliest.
    Tick tail;   ///< From the end of this need to that of the job, at least.
  };

  void add_uses(std::size_t pool);
  void add_holds(std::size_t pool);
  /// A minimum lag at its shortest.
  struct Step {
    int to;
    Tick least;
  };

  void find_steps();
  [[nodiscard]] std::vector<Tick> tails(const std::vector<int>& groups) const;
  [[nodiscard]] Tick least_step(const MinLag& min) const;
  [[nodiscard]] Tick least_hold(const Hold& hold) const;
  [[nodiscard]] bool is_refuted(const Windows& within, Tick end) const;
  [[nodiscard]] bool is_short(std::size_t pool, const Windows& windows) const;
  [[nodiscard]] Tick least_end(const Job& job) const;
  [[nodiscard]] std::int64_t least_lateness(const Job& job) const;
  [[nodiscard]] std::vector<Need> needs_of(std::size_t pool, int least_weight) const;
  [[nodiscard]] std::int64_t lateness_on(std::size_t pool, int least_weight) const;

  const Project& project_;
  const LagNetwork& network_;
  const Windows& windows_;
  std::vector<Pool> pools_;
  std::vector<UsableCapacity> usable_;    ///< Per pool.
  std::vector<std::vector<Item>> items_;  ///< Per pool.
  std::vector<std::vector<Step>> steps_;  ///< Per activity, those that only go forward.
  std::vector<int> job_of_;               ///< Per activity: its only job; else a number of its own.
  std::vector<Tick> tails_;               ///< From a start to the end of what must follow.
  std::vector<Tick> job_tails_;           ///< The same within its job.
};

}  // namespace coatwright
