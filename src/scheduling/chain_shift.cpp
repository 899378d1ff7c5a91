#include "scheduling/chain_shift.h"

#include <algorithm>

namespace coatwright {
namespace {

/// What has been placed so often in one shift is going round in circles.
constexpr std::int64_t kMostPlacements = 60;

}  // namespace

void ChainShift::begin(Direction direction) {
  direction_ = direction;
  before_ = board_.starts();
  wanted_ = before_;
  moved_.clear();
  pending_.clear();
  is_possible_ = true;
}

bool ChainShift::finish(Tick end) {
  follow_lags();
  const bool done = is_possible_ && settle_all(end);
  if (!done) {
    undo();
  }
  return done;
}

bool ChainShift::run(Direction direction, const std::vector<Move>& moves, Tick end) {
  begin(direction);
  for (const auto& [activity, start] : moves) {
    want(activity, start);
  }
  return finish(end);
}

bool ChainShift::insert(Direction direction, const Move& move, Tick end) {
  begin(direction);
  const auto [activity, start] = move;
  if (start + project_.activities[activity].length > end || !put(activity, start)) {
    undo();
    return false;
  }
  return finish(end);
}

/// Lags may move others in the direction only.
bool ChainShift::put(int activity, Tick start) {
  const bool later = direction_ == Direction::kLater;
  if (network_.grid(activity).up(start) != start || start > project_.horizon ||
      (later ? network_.earliest_beside(activity, before_, 0) > start
             : network_.latest_beside(activity, before_, project_.horizon) < start)) {
    return false;
  }
  take_out(activity);
  wanted_[activity] = start;
  queue_.push_back(activity);
  follow_lags();
  if (!is_possible_ || wanted_[activity] != start) {
    return false;
  }
  for (const int other : board_.blockers(activity, start)) {
    take_out(other);
  }
  if (board_.obstacle_at(activity, start)) {
    return false;
  }
  pending_.erase(pending_.begin());
  is_pending_[activity] = 0;
  board_.place(activity, start);
  return true;
}

void ChainShift::undo() {
  for (const int activity : moved_) {
    if (board_.is_placed(activity)) {
      board_.remove(activity);
    }
  }
  for (const int activity : moved_) {
    board_.place(activity, before_[activity]);
    is_pending_[activity] = 0;
  }
  placements_ += static_cast<std::int64_t>(moved_.size());
  moved_.clear();
  pending_.clear();
  queue_.clear();
}

/// An activity starts then, or further in the direction.
void ChainShift::want(int activity, Tick start) {
  const bool later = direction_ == Direction::kLater;
  const StartGrid& grid = network_.grid(activity);
  start = later ? grid.up(start) : grid.down(start);
  if (later ? start <= wanted_[activity] : start >= wanted_[activity]) {
    return;
  }
  is_possible_ = is_possible_ && start < kNeverTick && start != StartGrid::kNoStart;
  wanted_[activity] = start;
  queue_.push_back(activity);
  if (is_pending_[activity] == 0) {
    take_out(activity);
  }
}

void ChainShift::take_out(int activity) {
  board_.remove(activity);
  is_pending_[activity] = 1;
  pending_.push_back(activity);
  if (std::find(moved_.begin(), moved_.end(), activity) == moved_.end()) {
    moved_.push_back(activity);
  }
}

void ChainShift::follow_lags() {
  while (!queue_.empty() && is_possible_) {
    const int activity = queue_.back();
    queue_.pop_back();
    const Tick start = wanted_[activity];
    const bool later = direction_ == Direction::kLater;
    for (const auto& arc : later ? network_.earlier(activity) : network_.later(activity)) {
      follow_lag(arc, start);
    }
  }
}

void ChainShift::follow_lag(const LagNetwork::Arc& arc, Tick start) {
  const Tick known = wanted_[arc.other];
  if (is_possible_) {
    want(arc.other,
         direction_ == Direction::kLater ? network_.earliest_after(arc, start, known)
                                         : network_.latest_before(arc, start, known));
  }
}

/// The pending activity from which the fewest others are to be moved along.
std::vector<int>::iterator ChainShift::next() {
  const int sign = direction_ == Direction::kLater ? 1 : -1;
  return std::min_element(pending_.begin(), pending_.end(), [&](int a, int b) {
    return std::pair(sign * wanted_[a], a) < std::pair(sign * wanted_[b], b);
  });
}

std::optional<Tick> ChainShift::fit(int activity, Tick end) {
  const Tick last = std::min(project_.horizon, end - project_.activities[activity].length);
  return direction_ == Direction::kLater ? board_.first_fit(activity, wanted_[activity], last)
                                         : board_.last_fit(activity, 0, wanted_[activity]);
}

bool ChainShift::settle_all(Tick end) {
  const std::int64_t most = placements_ + kMostPlacements;
  while (!pending_.empty() && ++placements_ <= most) {
    const auto place = next();
    const int activity = *place;
    const auto start = fit(activity, end);
    if (!start) {
      return false;
    }
    const std::size_t pending = pending_.size();
    want(activity, *start);
    follow_lags();
    if (!is_possible_) {
      return false;
    }
    if (wanted_[activity] != *start || pending_.size() != pending) {
      continue;  // what it moves along may move it on, or be what a hold of it waits for
    }
    pending_.erase(std::find(pending_.begin(), pending_.end(), activity));
    is_pending_[activity] = 0;
    board_.place(activity, *start);
  }
  return pending_.empty();
}

}  // namespace coatwright
