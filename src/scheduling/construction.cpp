#include "scheduling/construction.h"

#include <algorithm>
#include <numeric>

namespace coatwright {
namespace {

constexpr double kBlockFirst = 1e12;  // more than any priority
constexpr int kPushesInARow = 12;     // of one activity, before something is evicted for it
constexpr int kEvictionTries = 6;
constexpr int kStopAsked = 128;  // steps between two questions

}  // namespace

Construction::Construction(const Project& project,
                           const LagNetwork& network,
                           const Windows& windows,
                           const std::function<bool()>& stop)
    : project_(project),
      network_(network),
      windows_(windows),
      stop_(stop),
      board_(project, network),
      bare_(project, network),
      base_(windows),
      now_(windows),
      spare_(windows),
      following_(project.activities.size()),
      preceding_(project.activities.size(), 0) {
  for (const MinLag& min : project.min_lags) {
    const Tick first = windows.low(min.from);
    if (min.from != min.to && min.lag.at(first) >= first) {
      following_[min.from].push_back(min.to);
      ++preceding_[min.to];
    }
  }
  find_blocks(project);
}

void Construction::find_blocks(const Project& project) {
  block_of_.resize(project.activities.size());
  std::iota(block_of_.begin(), block_of_.end(), 0);
  const std::function<int(int)> root = [&](int activity) {
    return block_of_[activity] == activity ? activity
                                           : block_of_[activity] = root(block_of_[activity]);
  };
  for (const MaxLag& max : project.max_lags) {
    block_of_[root(max.from)] = root(max.to);
  }
  blocks_.resize(project.activities.size());
  for (int i = 0; i < network_.count(); ++i) {
    block_of_[i] = root(i);
    blocks_[block_of_[i]].push_back(i);
  }
  has_blocks_ = std::any_of(blocks_.begin(), blocks_.end(), [&](const std::vector<int>& block) {
    return block.size() > 1 && block.size() < blocks_.size();
  });
}

void Construction::begin() {
  board_.clear();
  base_ = windows_;
  now_ = windows_;
  open_ = preceding_;
  block_placed_.assign(blocks_.size(), 0);
  taken_back_.assign(blocks_.size(), 0);
  pushed_.assign(blocks_.size(), 0);
  repairs_ = order_->repairs;
  waiting_.clear();
  for (int i = 0; i < network_.count(); ++i) {
    offer(i);
  }
}

void Construction::offer(int activity) {
  if (open_[activity] > 0 || board_.is_placed(activity)) {
    return;
  }
  const bool first = order_->keep_blocks && block_placed_[block_of_[activity]] > 0;
  waiting_.emplace_back(order_->priority[activity] - (first ? kBlockFirst : 0.0), activity);
  std::push_heap(waiting_.begin(), waiting_.end(), std::greater<>());
}

int Construction::next() {
  while (!waiting_.empty()) {
    std::pop_heap(waiting_.begin(), waiting_.end(), std::greater<>());
    const int activity = waiting_.back().second;
    waiting_.pop_back();
    if (!board_.is_placed(activity) && open_[activity] == 0) {
      return activity;
    }
  }
  // Those that are left wait for each other, as with lags of 0 in a ring.
  int best = -1;
  for (int i = 0; i < network_.count(); ++i) {
    if (!board_.is_placed(i) && (best == -1 || now_.low(i) < now_.low(best))) {
      best = i;
    }
  }
  return best;
}

bool Construction::run(const PlacingOrder& order, Random& random) {
  order_ = &order;
  begin();
  while (board_.placed() < network_.count()) {
    if (is_stopped()) {
      return false;
    }
    const int activity = next();
    if (!settle(activity, now_.low(activity)) && !repair(activity, random)) {
      return false;
    }
  }
  return true;
}

bool Construction::is_stopped() {
  if (!stop_ || ++steps_ < kStopAsked) {
    return false;
  }
  steps_ = 0;
  return stop_();
}

bool Construction::settle(int activity, Tick from) {
  wanted_ = board_.first_fit(activity, from, project_.horizon);
  while (wanted_ && *wanted_ <= now_.high(activity)) {
    if (!now_.raise(activity, *wanted_)) {
      break;
    }
    if (now_.low(activity) <= *wanted_) {
      put(activity, *wanted_);
      return true;
    }
    wanted_ = board_.first_fit(activity, now_.low(activity), project_.horizon);
  }
  obstacle_ = board_.obstacle();
  note_failure(activity);
  return false;
}

void Construction::put(int activity, Tick start) {
  board_.place(activity, start);
  ++placements_;
  for (const int next : following_[activity]) {
    --open_[next];
    offer(next);
  }
  const int block = block_of_[activity];
  if (++block_placed_[block] == 1 && order_->keep_blocks) {
    for (const int other : blocks_[block]) {
      offer(other);
    }
  }
  if (!now_.lower(activity, start)) {
    redraw(network_.component_of(activity));
  }
}

void Construction::note_failure(int activity) {
  no_place_ = {activity, std::nullopt, std::nullopt};
  if (obstacle_.profile >= 0 && obstacle_.profile < static_cast<int>(project_.resources.size())) {
    no_place_.resource = obstacle_.profile;
  }
  Tick closes = wanted_.value_or(kNeverTick);
  for (const LagNetwork::Arc& arc : network_.earlier(activity)) {
    if (!arc.along && board_.is_placed(arc.other)) {
      const Tick latest = arc.lag.at(board_.start(arc.other));
      if (latest < closes) {
        closes = latest;
        no_place_.missed_from = arc.other;
      }
    }
  }
}

bool Construction::repair(int activity, Random& random) {
  if (repairs_-- <= 0) {
    return false;
  }
  redraw(network_.component_of(activity));
  const bool push_first = ++pushed_[activity] % (kPushesInARow + 1) != 0;
  if (push_first && obstacle_.hold_from >= 0 && board_.is_placed(obstacle_.hold_from)) {
    if (push(obstacle_.hold_from, obstacle_.hold_from_at)) {
      offer(activity);
      return true;
    }
  } else if (push_first && wanted_ && push(activity, *wanted_)) {
    offer(activity);
    return true;
  }
  return evict(activity, random);
}

/// @return false when it cannot start so late, or nothing that is placed stands against it.
bool Construction::push(int activity, Tick earliest) {
  spare_ = base_;
  if (earliest >= kNeverTick || !base_.raise(activity, earliest)) {
    base_ = spare_;
    return false;
  }
  const int before = board_.placed();
  const int component = network_.component_of(activity);
  for (const int other : network_.components()[component]) {
    if (board_.is_placed(other) && board_.start(other) < base_.low(other)) {
      take_back(other);
    }
  }
  redraw(component);
  return board_.placed() < before;
}

/// Makes room in the window at what costs least: what was taken back often costs more.
bool Construction::evict(int activity, Random& random) {
  const Tick low = now_.low(activity);
  const Tick high = now_.high(activity);
  std::optional<Tick> best;
  double least = 0.0;
  for (int attempt = 0; attempt < kEvictionTries && low <= high; ++attempt) {
    const Tick from = attempt == 0 ? low : low + random.below(high - low + 1);
    const auto start = bare_.first_fit(activity, from, high);
    if (!start) {
      continue;
    }
    double cost = 0.0;
    for (const int other : board_.blockers(activity, *start)) {
      const double weight = 1.0 + taken_back_[other];
      cost += other == activity ? 0.0 : weight * weight;
    }
    if (!best || cost < least) {
      best = start;
      least = cost;
    }
  }
  if (!best) {
    return false;
  }
  for (const int other : board_.blockers(activity, *best)) {
    take_back(other);
    redraw(network_.component_of(other));
  }
  if (!settle(activity, *best)) {
    redraw(network_.component_of(activity));
    offer(activity);
  }
  return true;
}

void Construction::take_back(int activity) {
  if (!board_.is_placed(activity)) {
    return;
  }
  board_.remove(activity);
  ++taken_back_[activity];
  --block_placed_[block_of_[activity]];
  for (const int next : following_[activity]) {
    ++open_[next];
  }
  for (const int other : board_.held_to(activity)) {
    take_back(other);
  }
  offer(activity);
}

void Construction::redraw(int component) {
  const std::vector<int>& members = network_.components()[component];
  now_.copy(base_, members);
  for (const int activity : members) {
    if (board_.is_placed(activity)) {
      now_.pin(activity, board_.start(activity));
    }
  }
  if (now_.propagate(members)) {
    return;
  }
  // Some that are placed do not go together any more: the later ones give way.
  now_.copy(base_, members);
  std::vector<int> placed;
  for (const int activity : members) {
    if (board_.is_placed(activity)) {
      placed.push_back(activity);
    }
  }
  std::sort(placed.begin(), placed.end(), [&](int a, int b) {
    return std::pair(board_.start(a), a) < std::pair(board_.start(b), b);
  });
  for (const int activity : placed) {
    const Tick start = board_.start(activity);
    if (!now_.raise(activity, start) || !now_.lower(activity, start)) {
      take_back(activity);
      redraw(component);
      return;
    }
  }
}

}  // namespace coatwright
