#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <utility>
#include <vector>

#include "scheduling/board.h"
#include "scheduling/random.h"
#include "scheduling/solver.h"

namespace coatwright {

/// In which order activities are placed.
struct PlacingOrder {
  std::vector<double> priority;  ///< Per activity: the least first, once what precedes is placed.
  bool keep_blocks = true;       ///< What maximum lags join is placed without a break.
  int repairs = 100;             ///< How often placed activities may be taken back.
};

/// Builds schedules by placing one activity after another at its earliest moment. Where an activity
/// finds no place in its window, those that close it are pushed later and tried again; where they
/// cannot be, what is in the way is taken back. Source: serial schedule generation
/// [kolisch1996] with the unscheduling step of [franck2001]; the holds are ours.
class Construction {
 public:
  /// @param windows drawn from all lags; they limit every start. @param stop asked now and then;
  /// true ends a run. May be empty.
  Construction(const Project& project,
               const LagNetwork& network,
               const Windows& windows,
               const std::function<bool()>& stop);

  /// @return whether all were placed; board() then has the schedule. no_place() else says where it
  /// ended.
  bool run(const PlacingOrder& order, Random& random);
  [[nodiscard]] Board& board() { return board_; }
  [[nodiscard]] const NoPlace& no_place() const { return no_place_; }
  [[nodiscard]] std::int64_t placements() const { return placements_; }
  [[nodiscard]] bool has_blocks() const { return has_blocks_; }
  /// The block of an activity; those without a maximum lag have one of their own.
  [[nodiscard]] int block_of(int activity) const { return block_of_[activity]; }

 private:
  using Waiting = std::pair<double, int>;  ///< Key and activity.

  void find_blocks(const Project& project);
  void begin();
  void offer(int activity);
  [[nodiscard]] int next();
  /// Places at the earliest start from the window's begin on. @return false when it has none;
  /// wanted_ is then the first start that would be free.
  bool settle(int activity, Tick from);
  void put(int activity, Tick start);
  bool repair(int activity, Random& random);
  bool push(int activity, Tick earliest);
  bool evict(int activity, Random& random);
  void take_back(int activity);
  /// Redraws the windows of a component from what is placed.
  void redraw(int component);
  void note_failure(int activity);
  [[nodiscard]] bool is_stopped();

  const Project& project_;
  const LagNetwork& network_;
  const Windows& windows_;
  const std::function<bool()>& stop_;
  Board board_;
  Board bare_;     ///< With nothing placed: what calendars alone allow.
  Windows base_;   ///< What holds for the rest of this run, whatever is taken back.
  Windows now_;    ///< With the starts of what is placed.
  Windows spare_;  ///< Of base_, for a push that does not work out.
  std::vector<std::vector<int>> following_;
  std::vector<int> preceding_;  ///< How many there are per activity.
  std::vector<int> block_of_;
  std::vector<std::vector<int>> blocks_;
  bool has_blocks_ = false;

  const PlacingOrder* order_ = nullptr;
  std::vector<Waiting> waiting_;   ///< A heap.
  std::vector<int> open_;          ///< Preceding activities that are not placed.
  std::vector<int> block_placed_;  ///< Per block.
  std::vector<int> taken_back_;    ///< How often, per activity.
  std::vector<int> pushed_;
  std::optional<Tick> wanted_;
  Board::Obstacle obstacle_;
  int repairs_ = 0;
  NoPlace no_place_;
  std::int64_t placements_ = 0;
  int steps_ = 0;  ///< Since stop_ was asked.
};

}  // namespace coatwright
