#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "scheduling/construction.h"

namespace coatwright {

/// The best schedule so far.
struct Incumbent {
  std::optional<StartTimes> schedule;
  ProjectCost cost;

  /// Takes a schedule over if it is better. @return whether it was.
  bool offer(const Project& project, const StartTimes& candidate);
};

/// Searches among orders of placing: builds a schedule by each priority rule, then disturbs the
/// order in which the activities of the best one start, builds anew, and keeps what is not worse.
/// Source: iterated greedy search over activity lists with justification [valls2005].
class Improvement {
 public:
  /// @param stop asked now and then; true ends a search. May be empty.
  Improvement(const Project& project,
              const LagNetwork& network,
              const Windows& windows,
              unsigned seed,
              const std::function<bool()>& stop);

  /// Goes on for at most so many placements.
  void run(std::int64_t placements, Incumbent& best);
  /// The order of a schedule's starts is tried before anything else.
  void begin_with(const std::vector<Tick>& starts);
  /// The best schedule's end will not get better: from now on only the sum of ends is looked at.
  void keep_end() { keeps_end_ = true; }
  [[nodiscard]] std::int64_t placements() const { return construction_.placements(); }
  /// Where the attempt that placed most of all failed.
  [[nodiscard]] const std::optional<NoPlace>& no_place() const { return no_place_; }
  [[nodiscard]] bool has_tried_rules() const { return next_rule_ >= orders_.size(); }

 private:
  /// What a schedule that is disturbed is judged by: where the end is the same for many, how much
  /// work lies past a target tells which of them is nearer to a better one.
  struct Guide {
    std::int64_t lateness = 0;
    std::int64_t past_target = 0;
    Tick end = 0;
    std::int64_t sum_of_ends = 0;
    auto operator<=>(const Guide&) const = default;
  };

  [[nodiscard]] Guide guide_of(const StartTimes& schedule, const ProjectCost& cost) const;
  void choose_target(const Incumbent& best);
  void attempt(const PlacingOrder& order, Incumbent& best);
  void accept(const StartTimes& schedule, Incumbent& best);
  [[nodiscard]] StartTimes current_board();
  void justify(Incumbent& best);
  PlacingOrder next_order(const Incumbent& best);
  PlacingOrder disturbed_rule();
  PlacingOrder staggered(const Incumbent& best);
  PlacingOrder disturbed_schedule();
  void disturb_stretch(std::vector<double>& priority);
  void disturb_some(std::vector<double>& priority);
  void advance_group(std::vector<double>& priority, int group, double by);
  [[nodiscard]] int last_group() const;

  const Project& project_;
  const LagNetwork& network_;
  const Windows& windows_;
  const std::function<bool()>& stop_;
  Construction construction_;
  Random random_;
  std::vector<PlacingOrder> orders_;
  std::vector<int> groups_;
  std::size_t next_rule_ = 0;
  std::optional<StartTimes> current_;  ///< That is disturbed; no worse ones are accepted.
  ProjectCost current_cost_;
  Guide current_guide_;
  Tick target_ = 0;
  bool keeps_end_ = false;
  int since_better_ = 0;
  int staggered_left_ = 0;
  std::vector<double> urgency_;  ///< While no schedule was found: how often each had no place.
  std::optional<NoPlace> no_place_;
  int most_placed_ = -1;
};

}  // namespace coatwright
