#pragma once

#include <span>
#include <vector>

#include "scheduling/start_grid.h"

namespace coatwright {

/// A project's lags as arcs that move the earliest or the latest start of one activity by that of
/// another.
class LagNetwork {
 public:
  struct Arc {
    int other = 0;  ///< The activity whose start is moved.
    Lag lag;
    bool along = true;  ///< The lag counts from the one that moves it; else from the other.
  };

  explicit LagNetwork(const Project& project);

  [[nodiscard]] int count() const { return static_cast<int>(earlier_.size()); }
  [[nodiscard]] const StartGrid& grid(int activity) const { return grids_[grid_of_[activity]]; }
  /// Arcs that move the earliest starts of others when that of an activity rises.
  [[nodiscard]] const std::vector<Arc>& earlier(int activity) const { return earlier_[activity]; }
  /// Arcs that move the latest starts of others when that of an activity falls.
  [[nodiscard]] const std::vector<Arc>& later(int activity) const { return later_[activity]; }
  /// @return the first start of an arc's other activity when that of its own is `earliest`;
  /// kNeverTick when there is none. @param known a start that is a lower bound already.
  [[nodiscard]] Tick earliest_after(const Arc& arc, Tick earliest, Tick known) const;
  /// @return the last start of an arc's other activity; StartGrid::kNoStart when there is none.
  [[nodiscard]] Tick latest_before(const Arc& arc, Tick latest, Tick known) const;

  /// @return the earliest start of an activity that its own lags allow beside the starts of all
  /// others, from `known` on.
  [[nodiscard]] Tick earliest_beside(int activity,
                                     const std::vector<Tick>& starts,
                                     Tick known) const;
  /// @return the latest such start, from `known` down.
  [[nodiscard]] Tick latest_beside(int activity, const std::vector<Tick>& starts, Tick known) const;

  /// Activities that lags join, directly or through others, lie in one component.
  [[nodiscard]] int component_of(int activity) const { return component_of_[activity]; }
  [[nodiscard]] const std::vector<std::vector<int>>& components() const { return components_; }

 private:
  void find_components();

  std::vector<StartGrid> grids_;
  std::vector<int> grid_of_;
  std::vector<std::vector<Arc>> earlier_;
  std::vector<std::vector<Arc>> later_;
  std::vector<int> component_of_;
  std::vector<std::vector<int>> components_;
  Tick horizon_;
};

/// The earliest and the latest start of each activity, with all that follows by the lags.
class Windows {
 public:
  /// From the start sets alone; nothing is drawn from the lags yet.
  explicit Windows(const LagNetwork& network);

  [[nodiscard]] Tick low(int activity) const { return low_[activity]; }
  [[nodiscard]] Tick high(int activity) const { return high_[activity]; }
  /// Draws all that follows from the lags. @return false when some activity has no start left.
  [[nodiscard]] bool propagate();
  /// An activity starts at a moment or later, and others after it. @return false when some activity
  /// has no start left; the windows are then of no use.
  [[nodiscard]] bool raise(int activity, Tick earliest);
  /// An activity starts at a moment or earlier. @return as raise().
  [[nodiscard]] bool lower(int activity, Tick latest);
  /// The activities whose windows the last raise() or lower() moved; may name one twice.
  [[nodiscard]] const std::vector<int>& moved() const { return moved_; }
  /// Takes over the windows of some activities.
  void copy(const Windows& from, std::span<const int> activities);
  /// An activity starts then; nothing is drawn from it until propagate().
  void pin(int activity, Tick start) { low_[activity] = high_[activity] = start; }
  /// Draws all that follows from the windows of some activities. @return as raise().
  [[nodiscard]] bool propagate(std::span<const int> activities);

 private:
  void queue_all(std::span<const int> activities);
  bool follow_earlier();
  bool follow_later();

  const LagNetwork* network_;
  std::vector<Tick> low_;
  std::vector<Tick> high_;
  std::vector<int> queue_;
  std::vector<char> is_queued_;
  std::vector<int> all_;
  std::vector<int> moved_;
};

}  // namespace coatwright
