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

  /// How often which goal is chosen.
  struct Turns;
  static const Turns kOfFewSteps;
  static const Turns kOfManySteps;
  /// What is to be less, and what all of it must keep.
  struct Goal {
    enum class Measure { kLateness, kEnd, kOverrun };
    Measure measure;
    CostLimit limit;
  };

  /// What the part is searched for, and frees what stands in the way of it first.
  [[nodiscard]] Goal choose_goal(bool for_lateness, Part& part);
  [[nodiscard]] std::vector<int> jobs_past(Tick past) const;
  [[nodiscard]] Goal less_late();
  [[nodiscard]] Goal sooner_over() const;
  /// After a find: what is to be searched for next, less than current_ has.
  void ask_for_more(Goal& goal) const;
  [[nodiscard]] std::int64_t overrun(Tick past) const;
  void take_over(const StartTimes& schedule);
  /// Frees more, up to the size, and searches. @return whether current_ is a new one.
  [[nodiscard]] bool search_part(Goal goal, std::int64_t most_nodes, Part& part);
  void free_job(int job, Part& part);
  void free_what_costs(bool for_lateness, Part& part);
  void free_last(Part& part);
  void free_late_job(Part& part);
  void free_more(Part& part);
  void free_stretch(double most, Part& part);
  void free_groups(Part& part);
  void free_rivals(Part& part);
  [[nodiscard]] Tick end_of(int activity) const;
  [[nodiscard]] Tick end_of_job(const Job& job) const;

  SearchTables& tables_;
  const Project& project_;
  const std::function<bool()>& stop_;
  Random random_;
  std::vector<std::vector<int>> groups_;  ///< Jobs, and what lags join.
  std::vector<int> group_of_;
  std::vector<std::vector<int>> users_;  ///< Per resource: the activities that take of it.
  const Turns& turns_;
  StartTimes current_;  ///< That parts are freed of.
  ProjectCost current_cost_;
  ProjectCost best_cost_;
  double size_;  ///< How many activities are freed.
  std::int64_t nodes_ = 0;
};

}  // namespace coatwright
