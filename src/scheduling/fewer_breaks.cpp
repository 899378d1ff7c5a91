#include "scheduling/fewer_breaks.h"

#include <algorithm>
#include <compare>
#include <optional>
#include <set>
#include <utility>
#include <vector>

#include "scheduling/chain_shift.h"
#include "scheduling/work_breaks.h"

namespace coatwright {
namespace {

/// How many blocks away, on either side, work is moved to.
constexpr int kReach = 4;
/// Blocks of more activities are moved as a whole only.
constexpr std::size_t kFew = 4;

using Direction = ChainShift::Direction;
using Move = ChainShift::Move;

class BreakSearch {
 public:
  BreakSearch(const Project& project,
              int people,
              const StartTimes& schedule,
              std::int64_t placements,
              const std::function<bool(const StartTimes&)>& may_be,
              const std::function<bool()>& stop)
      : project_(project),
        network_(project),
        board_(project, network_),
        breaks_(project, people),
        shift_(project, network_, board_),
        limit_(placements),
        may_be_(may_be),
        stop_(stop) {
    for (int i = 0; i < network_.count(); ++i) {
      board_.place(i, schedule.starts[i]);
    }
    current_ = judge();
  }

  FewerBreaks run() {
    bool any = true;
    while (any) {
      blocks_ = breaks_.blocks(board_.starts());
      any = false;
      for (std::size_t i = 0; i < blocks_.size() && !is_over(); ++i) {
        if (improve_at(i)) {
          any = true;
          blocks_ = breaks_.blocks(board_.starts());
        }
      }
      any = any && !is_over();
    }
    return {{board_.starts()}, shift_.placements()};
  }

 private:
  /// What a schedule is judged by, in this order.
  struct Aims {
    std::int64_t lateness = 0;
    Tick end = 0;
    int breaks = 0;
    std::int64_t sum_of_ends = 0;
    auto operator<=>(const Aims&) const = default;
  };

  [[nodiscard]] Aims judge() const {
    const ProjectCost cost = cost_of(project_, {board_.starts()});
    return {cost.lateness, cost.end, breaks_.count(board_.starts()), cost.sum_of_ends};
  }
  [[nodiscard]] bool is_over() const { return shift_.placements() >= limit_ || (stop_ && stop_()); }

  /// Keeps what moved if the schedule is better by it.
  bool keep_better() {
    const Aims aims = judge();
    if (aims < current_ && may_be_({board_.starts()})) {
      current_ = aims;
      return true;
    }
    shift_.undo();
    return false;
  }
  bool try_moves(Direction direction, const std::vector<Move>& moves) {
    return !is_over() && shift_.run(direction, moves, current_.end) && keep_better();
  }
  bool try_insert(Direction direction, const Move& move) {
    return !is_over() && shift_.insert(direction, move, current_.end) && keep_better();
  }

  /// Tries to move a block of work, or what is in it, to other work. @return whether it did.
  bool improve_at(std::size_t place) {
    if (!tried_.insert(surroundings(place)).second) {
      return false;
    }
    const WorkBlock& block = blocks_[place];
    return close_gap(place) || fill_gap(place) || try_around(place, block.activities) ||
           try_each(place);
  }

  /// An activity from near by goes into the break before a block, at its beginning or its end.
  bool fill_gap(std::size_t place) {
    if (!blocks_[place].after_break) {
      return false;
    }
    const Tick grain = project_.grain;
    const Tick from = (blocks_[place - 1].to + grain - 1) / grain * grain;
    const Tick to = blocks_[place].from;
    const std::size_t first = place - std::min<std::size_t>(place, kReach);
    const std::size_t last = std::min(place + kReach, blocks_.size());
    for (std::size_t other = first; other < last; ++other) {
      for (const int activity : blocks_[other].activities) {
        const Tick length = project_.activities[activity].length;
        const Tick at_end = (to - length) / grain * grain;
        const Tick by = other < place ? whole_grains(to - from) : -whole_grains(to - from);
        if (try_fill(activity, from) || (at_end != from && try_fill(activity, at_end)) ||
            try_by({activity}, by)) {
          return true;
        }
      }
    }
    return false;
  }

  bool try_fill(int activity, Tick start) {
    const Tick now = board_.start(activity);
    return start != now && start >= 0 &&
           (try_moves(start > now ? Direction::kLater : Direction::kEarlier, {{activity, start}}) ||
            try_insert(Direction::kLater, {activity, start}) ||
            try_insert(Direction::kEarlier, {activity, start}));
  }

  /// A block and the work near it: where it was tried in vain, it is not tried again.
  [[nodiscard]] std::vector<Tick> surroundings(std::size_t place) const {
    std::vector<Tick> near{blocks_[place].activities.front()};
    const std::size_t last = std::min(place + kReach + 1, blocks_.size());
    for (std::size_t other = place - std::min<std::size_t>(place, kReach); other < last; ++other) {
      for (const int activity : blocks_[other].activities) {
        near.insert(near.end(), {activity, board_.start(activity)});
      }
    }
    return near;
  }

  /// As a whole, up to the blocks beside it.
  bool close_gap(std::size_t place) {
    const WorkBlock& block = blocks_[place];
    const bool goes_on = place + 1 < blocks_.size() && blocks_[place + 1].after_break;
    return (goes_on &&
            try_by(block.activities, whole_grains(blocks_[place + 1].from - block.to))) ||
           (block.after_break &&
            try_by(block.activities, -whole_grains(block.from - blocks_[place - 1].to)));
  }
  [[nodiscard]] Tick whole_grains(Tick span) const { return span - span % project_.grain; }

  bool try_by(const std::vector<int>& activities, Tick by) {
    std::vector<Move> moves;
    for (const int activity : activities) {
      moves.emplace_back(activity, board_.start(activity) + by);
    }
    return try_moves(by > 0 ? Direction::kLater : Direction::kEarlier, moves);
  }

  /// To the beginnings and the ends of the blocks near by.
  bool try_around(std::size_t place, const std::vector<int>& activities) {
    const int count = static_cast<int>(blocks_.size());
    const int here = static_cast<int>(place);
    for (int away = 1; away <= kReach; ++away) {
      if (here + away < count && try_at(blocks_[here + away], Direction::kLater, activities)) {
        return true;
      }
      if (here >= away && try_at(blocks_[here - away], Direction::kEarlier, activities)) {
        return true;
      }
    }
    return false;
  }

  bool try_at(const WorkBlock& other, Direction direction, const std::vector<int>& activities) {
    const bool later = direction == Direction::kLater;
    return try_to(later ? other.from : other.to, direction, activities) ||
           try_to(later ? other.to : other.from, direction, activities);
  }

  /// They begin at a moment or later, or end then or earlier.
  bool try_to(Tick moment, Direction direction, const std::vector<int>& activities) {
    std::vector<Move> moves;
    for (const int activity : activities) {
      const Tick length = direction == Direction::kLater ? 0 : project_.activities[activity].length;
      moves.emplace_back(activity, moment - length);
    }
    return try_moves(direction, moves);
  }

  bool try_each(std::size_t place) {
    const std::vector<int> activities = blocks_[place].activities;
    return activities.size() <= kFew &&
           std::any_of(activities.begin(), activities.end(), [&](int activity) {
             return try_around(place, {activity}) || try_beside(place, activity);
           });
  }

  /// At the beginning of a block near by, which gives way.
  bool try_beside(std::size_t place, int activity) {
    const std::size_t first = place - std::min<std::size_t>(place, kReach);
    const std::size_t last = std::min(place + kReach, blocks_.size());
    for (std::size_t other = first; other < last; ++other) {
      if (other != place && try_fill(activity, blocks_[other].from)) {
        return true;
      }
    }
    return false;
  }

  const Project& project_;
  LagNetwork network_;
  Board board_;
  WorkBreaks breaks_;
  ChainShift shift_;
  std::int64_t limit_;
  const std::function<bool(const StartTimes&)>& may_be_;
  const std::function<bool()>& stop_;
  std::vector<WorkBlock> blocks_;
  std::set<std::vector<Tick>> tried_;  ///< Surroundings.
  Aims current_;
};

}  // namespace

FewerBreaks fewer_breaks(const Project& project,
                         int people,
                         const StartTimes& schedule,
                         std::int64_t placements,
                         const std::function<bool(const StartTimes&)>& may_be,
                         const std::function<bool()>& stop) {
  return BreakSearch(project, people, schedule, placements, may_be, stop).run();
}

}  // namespace coatwright
