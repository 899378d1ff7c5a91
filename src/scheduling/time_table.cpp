#include "scheduling/time_table.h"

#include <algorithm>
#include <limits>
#include <set>

namespace coatwright {
namespace {

constexpr std::size_t kNobody = std::numeric_limits<std::size_t>::max();

}  // namespace

TimeTable::TimeTable(const Project& project, int resource, const StartVariables& starts)
    : starts_(starts),
      capacity_(project.resources[static_cast<std::size_t>(resource)].capacity),
      occupations_(occupations_of(project, resource)),
      placed_(occupations_.size()) {
  for (Occupation& one : occupations_) {
    one.end = starts.known(one.end);
  }
}

std::vector<int> TimeTable::variables() const {
  std::set<int> all;
  for (const Occupation& one : occupations_) {
    all.insert({one.begin.variable, one.end.variable});
  }
  return {all.begin(), all.end()};
}

bool TimeTable::fold_fixed(const BoundTrail& trail) {
  std::vector<std::pair<Tick, int>> changes;  // of the capacity
  int before = 0;
  for (const CapacityStep& step : capacity_) {
    changes.emplace_back(step.at, step.capacity - before);
    before = step.capacity;
  }
  std::vector<Occupation> open;
  Reach reach{kNeverTick, 0, 0};
  for (Occupation& one : occupations_) {
    const Tick begin = starts_.low(one.begin);
    if (!trail.is_fixed(one.begin.variable) || !trail.is_fixed(one.end.variable)) {
      reach.from = std::min(reach.from, begin);
      reach.until = std::max(reach.until, starts_.high(one.end));
      reach.amount += one.amount;
      open.push_back(std::move(one));
    } else if (const Tick end = starts_.low(one.end); begin < end) {
      changes.emplace_back(begin, -one.amount);
      changes.emplace_back(end, one.amount);
    }
  }
  occupations_ = std::move(open);
  placed_.assign(occupations_.size(), Placed{});
  counted_ = placed_;
  events_.clear();
  profile_.clear();
  std::sort(changes.begin(), changes.end());
  return set_capacity(changes, reach);
}

/// More than all that is open takes together, and what lies beyond its reach, makes no difference.
bool TimeTable::set_capacity(const std::vector<std::pair<Tick, int>>& changes, const Reach& reach) {
  capacity_.clear();
  bool is_kept = true;
  int level = 0;
  for (std::size_t i = 0; i < changes.size(); ++i) {
    level += changes[i].second;
    if (i + 1 < changes.size() && changes[i + 1].first == changes[i].first) {
      continue;
    }
    is_kept = is_kept && level >= 0;
    const int useful = std::clamp(level, 0, reach.amount);
    const Tick at = changes[i].first;
    if (at <= reach.from) {
      capacity_.assign(1, {at, useful});
    } else if (at < reach.until && (capacity_.empty() || capacity_.back().capacity != useful)) {
      capacity_.push_back({at, useful});
    }
  }
  is_ample_ = std::all_of(capacity_.begin(), capacity_.end(), [&](const CapacityStep& step) {
    return step.capacity >= reach.amount;
  });
  return is_kept;
}

TimeTable::Placed TimeTable::placed_now(std::size_t occupation) const {
  const Occupation& one = occupations_[occupation];
  if (one.has_fixed_length()) {
    const Tick low = starts_.low(one.begin.variable);
    const Tick high = starts_.high(one.begin.variable);
    const Tick begin = one.begin.lag.constant;
    const Tick end = one.end.lag.constant;
    return {low + begin, high + begin, low + end, high + end};
  }
  return {
      starts_.low(one.begin), starts_.high(one.begin), starts_.low(one.end), starts_.high(one.end)};
}

bool TimeTable::place_all() {
  bool is_changed = false;
  moved_.clear();
  for (std::size_t i = 0; i < occupations_.size(); ++i) {
    const Placed now = placed_now(i);
    placed_[i] = now;
    Placed& before = counted_[i];
    if (now == before) {
      continue;
    }
    moved_.push_back(i);
    const bool same_sure =
        now.is_sure() == before.is_sure() &&
        (!now.is_sure() || (now.begin_high == before.begin_high && now.end_low == before.end_low));
    if (!same_sure) {
      is_changed = true;
      const int amount = occupations_[i].amount;
      if (before.is_sure()) {
        remove_event(before.begin_high, amount);
        remove_event(before.end_low, -amount);
      }
      if (now.is_sure()) {
        add_event(now.begin_high, amount);
        add_event(now.end_low, -amount);
      }
    }
    before = now;
  }
  return is_changed;
}

void TimeTable::add_event(Tick at, int amount) {
  const std::pair event(at, amount);
  events_.insert(std::upper_bound(events_.begin(), events_.end(), event), event);
}

void TimeTable::remove_event(Tick at, int amount) {
  events_.erase(std::lower_bound(events_.begin(), events_.end(), std::pair(at, amount)));
}

bool TimeTable::surely_at(std::size_t occupation, Tick at) const {
  return placed_[occupation].begin_high <= at && at < placed_[occupation].end_low;
}

void TimeTable::build_profile() {
  profile_.clear();
  worst_spare_ = std::numeric_limits<int>::max();
  int taken = 0;
  int capacity = 0;
  std::size_t event = 0;
  std::size_t step = 0;
  while (event < events_.size() || step < capacity_.size()) {
    Tick at = kNeverTick;
    at = event < events_.size() ? std::min(at, events_[event].first) : at;
    at = step < capacity_.size() ? std::min(at, capacity_[step].at) : at;
    for (; event < events_.size() && events_[event].first == at; ++event) {
      taken += events_[event].second;
    }
    for (; step < capacity_.size() && capacity_[step].at == at; ++step) {
      capacity = capacity_[step].capacity;
    }
    profile_.push_back({at, taken, capacity});
    worst_spare_ = std::min(worst_spare_, capacity - taken);
  }
}

Tick TimeTable::segment_end(std::size_t segment) const {
  return segment + 1 < profile_.size() ? profile_[segment + 1].from : kNeverTick;
}

std::size_t TimeTable::first_segment_after(Tick at) const {
  const auto next =
      std::upper_bound(profile_.begin(), profile_.end(), at, [](Tick wanted, const Segment& one) {
        return wanted < one.from;
      });
  return static_cast<std::size_t>(next - profile_.begin());
}

void TimeTable::explain_taken(const BoundTrail& trail, Tick at, int spare, std::size_t except) {
  std::vector<std::pair<int, std::size_t>> by_amount;  // what is known anyway comes first
  for (std::size_t i = 0; i < occupations_.size(); ++i) {
    if (i != except && surely_at(i, at)) {
      const bool is_free = trail.is_true_at_root(starts_.not_after(occupations_[i].begin, at)) &&
                           trail.is_true_at_root(starts_.not_before(occupations_[i].end, at + 1));
      by_amount.emplace_back(is_free ? std::numeric_limits<int>::max() : occupations_[i].amount, i);
    }
  }
  std::sort(by_amount.rbegin(), by_amount.rend());
  for (const auto& [rank, i] : by_amount) {
    if (spare < 0) {
      return;
    }
    spare -= occupations_[i].amount;
    because_.push_back(starts_.not_after(occupations_[i].begin, at));
    because_.push_back(starts_.not_before(occupations_[i].end, at + 1));
  }
}

bool TimeTable::propagate(Inference& inference) {
  if (is_ample_) {
    return true;
  }
  const auto push = [&](std::size_t i) {
    return occupations_[i].amount <= worst_spare_ ||
           (push_later(i, inference) && push_earlier(i, inference));
  };
  if (!place_all() && !profile_.empty()) {
    // The same is taken as before: only what has moved may meet it anew.
    return std::all_of(moved_.begin(), moved_.end(), push);
  }
  build_profile();
  for (const Segment& one : profile_) {
    if (one.taken > one.capacity && one.taken > 0) {
      because_.clear();
      explain_taken(inference.trail(), one.from, one.capacity, kNobody);
      return inference.contradict(because_);
    }
  }
  for (std::size_t i = 0; i < occupations_.size(); ++i) {
    if (!push(i)) {
      return false;
    }
  }
  return true;
}

/// Where it does not fit at its earliest, it begins later.
bool TimeTable::push_later(std::size_t occupation, Inference& inference) {
  const Occupation& one = occupations_[occupation];
  Placed& at = placed_[occupation];
  if (at.begin_low == at.begin_high) {
    return true;
  }
  const std::size_t after = first_segment_after(at.begin_low);
  for (std::size_t i = after == 0 ? 0 : after - 1; i < profile_.size(); ++i) {
    const Segment& segment = profile_[i];
    if (segment.from >= at.end_low) {
      break;
    }
    if (segment.taken + one.amount <= segment.capacity || segment_end(i) <= at.begin_low ||
        surely_at(occupation, segment.from)) {
      continue;
    }
    // Moment by moment: each lies inside both the segment and the occupation at its earliest.
    while (at.begin_low < segment_end(i) && segment.from < at.end_low) {
      const Tick moment = std::min(segment_end(i), at.end_low) - 1;
      if (moment < at.begin_low) {
        break;  // it lies there, or it has no length yet
      }
      because_.clear();
      because_.push_back(starts_.not_before(one.end, moment + 1));
      explain_taken(inference.trail(), moment, segment.capacity - one.amount, occupation);
      if (!inference.infer(starts_.not_before(one.begin, moment + 1), because_)) {
        return false;
      }
      at = placed_now(occupation);
    }
  }
  return true;
}

/// Where it does not fit at its latest, it ends earlier.
bool TimeTable::push_earlier(std::size_t occupation, Inference& inference) {
  const Occupation& one = occupations_[occupation];
  Placed& at = placed_[occupation];
  if (at.end_low == at.end_high) {
    return true;
  }
  for (std::size_t i = first_segment_after(at.end_high - 1); i-- > 0;) {
    const Segment& segment = profile_[i];
    if (segment_end(i) <= at.begin_high) {
      break;
    }
    if (segment.taken + one.amount <= segment.capacity || segment.from >= at.end_high ||
        surely_at(occupation, segment.from)) {
      continue;
    }
    while (segment.from < at.end_high && at.begin_high < segment_end(i)) {
      const Tick moment = std::max(segment.from, at.begin_high);
      if (moment >= at.end_high) {
        break;
      }
      because_.clear();
      because_.push_back(starts_.not_after(one.begin, moment));
      explain_taken(inference.trail(), moment, segment.capacity - one.amount, occupation);
      if (!inference.infer(starts_.not_after(one.end, moment), because_)) {
        return false;
      }
      at = placed_now(occupation);
    }
  }
  return true;
}

}  // namespace coatwright
