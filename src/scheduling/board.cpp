#include "scheduling/board.h"

#include <algorithm>

namespace coatwright {

Board::Board(const Project& project, const LagNetwork& network)
    : network_(network),
      uses_(project.activities.size()),
      holds_from_(project.activities.size()),
      holds_to_(project.activities.size()),
      held_to_(project.activities.size()),
      starts_(project.activities.size(), 0),
      is_placed_(project.activities.size(), 0),
      taken_(project.activities.size()) {
  for (const Resource& resource : project.resources) {
    profiles_.emplace_back(resource.capacity);
  }
  add_demands(project);
  add_holds(project);
  for (const Exclusion& exclusion : project.exclusions) {
    add_exclusion(exclusion);
  }
  find_own_clashes();
  empty_ = profiles_;
}

void Board::add_demands(const Project& project) {
  for (std::size_t i = 0; i < project.activities.size(); ++i) {
    for (const Demand& demand : project.activities[i].demands) {
      if (demand.amount > 0 && demand.from < demand.to) {
        uses_[i].push_back({demand.resource,
                            demand.resource,
                            demand.amount,
                            demand.amount,
                            demand.from,
                            Lag{demand.to}});
      }
    }
  }
}

void Board::add_holds(const Project& project) {
  for (const Hold& hold : project.holds) {
    if (hold.amount <= 0) {
      continue;
    }
    if (!hold.to || *hold.to == hold.from) {
      const Lag until = hold.to ? Lag{hold.to_offset} : hold.until;
      uses_[hold.from].push_back(
          {hold.resource, hold.resource, hold.amount, hold.amount, hold.from_offset, until});
      continue;
    }
    const int id = static_cast<int>(holds_.size());
    holds_.push_back(hold);
    holds_from_[hold.from].push_back(id);
    holds_to_[*hold.to].push_back(id);
    held_to_[hold.from].push_back(*hold.to);
    hold_lags_.emplace_back();
    for (const LagNetwork::Arc& arc : network_.earlier(hold.from)) {
      if (arc.along && arc.other == *hold.to) {
        hold_lags_.back().push_back(arc.lag);
      }
    }
  }
  for (const Hold& hold : holds_) {
    held_.push_back({hold.resource, hold.amount, 0, 0});
  }
}

/// Each side has a profile with nothing in it: what lies on the other side makes it negative.
void Board::add_exclusion(const Exclusion& exclusion) {
  const int one = static_cast<int>(profiles_.size());
  const int other = one + 1;
  profiles_.emplace_back(std::vector<CapacityStep>{});
  profiles_.emplace_back(std::vector<CapacityStep>{});
  for (const Stretch& stretch : exclusion.one_side) {
    uses_[stretch.activity].push_back({one, other, 0, 1, stretch.from, stretch.until});
  }
  for (const Stretch& stretch : exclusion.other_side) {
    uses_[stretch.activity].push_back({other, one, 0, 1, stretch.from, stretch.until});
  }
}

void Board::find_own_clashes() {
  for (std::size_t i = 0; i < uses_.size(); ++i) {
    std::vector<int> profiles;
    const auto add = [&](int checked, int taken) {
      profiles.push_back(checked);
      if (taken != checked) {
        profiles.push_back(taken);
      }
    };
    for (const Use& use : uses_[i]) {
      add(use.checked, use.taken);
    }
    for (const auto* holds : {&holds_from_[i], &holds_to_[i]}) {
      for (const int hold : *holds) {
        profiles.push_back(holds_[hold].resource);
      }
    }
    std::sort(profiles.begin(), profiles.end());
    const bool twice = std::adjacent_find(profiles.begin(), profiles.end()) != profiles.end();
    may_clash_.push_back(twice ? 1 : 0);
  }
}

Tick Board::least_end(int hold, Tick start) const {
  Tick least = start;
  for (const Lag& lag : hold_lags_[hold]) {
    least = std::max(least, lag.at(start));
  }
  return network_.grid(*holds_[hold].to).up(least);
}

void Board::want_hold_from(int hold, Tick start) {
  const Hold& one = holds_[hold];
  const bool ends = is_placed(*one.to);
  const Tick end = ends ? starts_[*one.to] : least_end(hold, start);
  if (end >= kNeverTick) {
    return;
  }
  wanted_.push_back({one.resource,
                     one.resource,
                     one.amount,
                     one.amount,
                     start + one.from_offset,
                     end + one.to_offset,
                     true,
                     !ends,
                     hold});
}

/// What has been taken from the first activity on need not be asked for again.
void Board::want_hold_to(int hold, Tick start) {
  const Hold& one = holds_[hold];
  if (!is_placed(one.from)) {
    return;
  }
  const Tick begin = std::max(held_[hold].end, starts_[one.from] + one.from_offset);
  wanted_.push_back({one.resource,
                     one.resource,
                     one.amount,
                     one.amount,
                     begin,
                     start + one.to_offset,
                     false,
                     true,
                     hold});
}

void Board::want(int activity, Tick start) {
  wanted_.clear();
  for (const Use& use : uses_[activity]) {
    wanted_.push_back({use.checked,
                       use.taken,
                       use.needed,
                       use.amount,
                       start + use.from,
                       use.until.at(start),
                       true,
                       true});
  }
  for (const int hold : holds_to_[activity]) {
    want_hold_to(hold, start);
  }
  for (const int hold : holds_from_[activity]) {
    want_hold_from(hold, start);
  }
}

Tick Board::step_over(const Wanted& wanted, const Profile::Shortage& shortage, Tick start) {
  obstacle_ = {wanted.checked, shortage, -1, 0};
  if (!wanted.moves_begin) {
    const Hold& hold = holds_[wanted.hold];
    obstacle_.hold_from = hold.from;
    obstacle_.hold_from_at =
        shortage.until >= kNeverTick ? kNeverTick : shortage.until - hold.from_offset;
    return kNeverTick;
  }
  // A hold to what is placed is over there.
  const Tick until = wanted.moves_end ? shortage.until : std::min(shortage.until, wanted.end);
  return until >= kNeverTick ? kNeverTick : std::max(start + 1, start + until - wanted.begin);
}

std::optional<Tick> Board::first_fit(int activity, Tick earliest, Tick latest) {
  obstacle_ = {};
  const StartGrid& grid = network_.grid(activity);
  Tick start = grid.up(earliest);
  while (start <= latest && start < kNeverTick) {
    want(activity, start);
    Tick next = start;
    for (const Wanted& wanted : wanted_) {
      if (wanted.begin >= wanted.end) {
        continue;
      }
      const auto shortage =
          profiles_[wanted.checked].last_shortage(wanted.begin, wanted.end, wanted.needed);
      if (shortage) {
        next = std::max(next, step_over(wanted, *shortage, start));
        break;
      }
    }
    if (next == start && clashes_with_itself(activity)) {
      next = start + 1;
    }
    if (next == start) {
      return start;
    }
    start = grid.up(next);
  }
  return std::nullopt;
}

std::optional<Tick> Board::last_fit(int activity, Tick earliest, Tick latest) {
  const StartGrid& grid = network_.grid(activity);
  Tick start = grid.down(latest);
  while (start >= earliest) {
    want(activity, start);
    Tick next = start;
    for (const Wanted& wanted : wanted_) {
      if (wanted.begin >= wanted.end) {
        continue;
      }
      const auto shortage =
          profiles_[wanted.checked].first_shortage(wanted.begin, wanted.end, wanted.needed);
      if (shortage && !wanted.moves_end) {
        return std::nullopt;
      }
      if (shortage) {
        const Tick from =
            wanted.moves_begin ? shortage->from : std::max(shortage->from, wanted.begin);
        next = std::min(start - 1, start - (wanted.end - from));
        break;
      }
    }
    if (next == start && clashes_with_itself(activity)) {
      next = start - 1;
    }
    if (next == start) {
      return start;
    }
    start = grid.down(next);
  }
  return std::nullopt;
}

std::optional<Board::Obstacle> Board::obstacle_at(int activity, Tick start) {
  if (first_fit(activity, start, start)) {
    return std::nullopt;
  }
  return obstacle_;
}

/// What fits alone may not fit together: where stretches that are wanted overlap, their sum must.
bool Board::clashes_with_itself(int activity) const {
  return may_clash_[activity] != 0 &&
         std::any_of(wanted_.begin(), wanted_.end(), [&](const Wanted& one) {
           return one.begin < one.end &&
                  (is_short_from(one.begin, one.checked) ||
                   std::any_of(wanted_.begin(), wanted_.end(), [&](const Wanted& other) {
                     return one.begin < other.begin && other.begin < one.end &&
                            is_short_from(other.begin, one.checked);
                   }));
         });
}

/// Whether a profile is short of all that is wanted of it together from a moment on, until that
/// changes.
bool Board::is_short_from(Tick from, int profile) const {
  int amount = 0;
  int touching = 0;
  bool is_checked = false;
  Tick until = kNeverTick;
  for (const Wanted& one : wanted_) {
    const bool takes = one.taken == profile;
    const bool checks = one.checked == profile;
    if ((!takes && !checks) || one.begin >= one.end || one.end <= from) {
      continue;
    }
    if (one.begin > from) {
      until = std::min(until, one.begin);
      continue;
    }
    until = std::min(until, one.end);
    amount += takes ? one.amount : 0;
    ++touching;
    is_checked = is_checked || checks;
  }
  // One alone has been looked at.
  return touching > 1 && is_checked && amount > 0 && !profiles_[profile].fits(from, until, amount);
}

/// Changes what a hold takes to begin .. end.
void Board::hold_until(int hold, Tick begin, Tick end) {
  Taken& held = held_[hold];
  profiles_[held.profile].take(held.begin, held.end, -held.amount);
  held.begin = begin;
  held.end = std::max(begin, end);
  profiles_[held.profile].take(held.begin, held.end, held.amount);
}

/// Brings the holds of an activity in line with what is placed.
void Board::set_holds(int activity) {
  for (const auto* holds : {&holds_from_[activity], &holds_to_[activity]}) {
    for (const int id : *holds) {
      const Hold& hold = holds_[id];
      if (!is_placed(hold.from)) {
        hold_until(id, 0, 0);
        continue;
      }
      const Tick begin = starts_[hold.from];
      const Tick end = is_placed(*hold.to) ? starts_[*hold.to] : least_end(id, begin);
      hold_until(id, begin + hold.from_offset, end >= kNeverTick ? 0 : end + hold.to_offset);
    }
  }
}

void Board::place(int activity, Tick start) {
  want(activity, start);
  for (const Wanted& wanted : wanted_) {
    if (wanted.hold < 0 && wanted.begin < wanted.end) {
      profiles_[wanted.taken].take(wanted.begin, wanted.end, wanted.amount);
      taken_[activity].push_back({wanted.taken, wanted.amount, wanted.begin, wanted.end});
    }
  }
  starts_[activity] = start;
  is_placed_[activity] = 1;
  ++placed_;
  set_holds(activity);
}

void Board::remove(int activity) {
  for (const Taken& taken : taken_[activity]) {
    profiles_[taken.profile].take(taken.begin, taken.end, -taken.amount);
  }
  taken_[activity].clear();
  is_placed_[activity] = 0;
  --placed_;
  set_holds(activity);
}

void Board::clear() {
  profiles_ = empty_;
  std::fill(is_placed_.begin(), is_placed_.end(), 0);
  for (auto& taken : taken_) {
    taken.clear();
  }
  for (Taken& held : held_) {
    held.begin = held.end = 0;
  }
  placed_ = 0;
}

bool Board::takes_of(int activity, const Wanted& wanted) const {
  const auto overlaps = [&](const Taken& one) {
    return one.profile == wanted.checked && one.begin < wanted.end && wanted.begin < one.end;
  };
  return std::any_of(taken_[activity].begin(), taken_[activity].end(), overlaps) ||
         std::any_of(holds_from_[activity].begin(), holds_from_[activity].end(), [&](int hold) {
           return overlaps(held_[hold]);
         });
}

std::vector<int> Board::blockers(int activity, Tick start) {
  want(activity, start);
  std::vector<int> found;
  for (const Wanted& wanted : wanted_) {
    if (wanted.begin >= wanted.end ||
        profiles_[wanted.checked].fits(wanted.begin, wanted.end, wanted.needed)) {
      continue;
    }
    for (int i = 0; i < network_.count(); ++i) {
      if (is_placed(i) && takes_of(i, wanted)) {
        found.push_back(i);
      }
    }
  }
  std::sort(found.begin(), found.end());
  found.erase(std::unique(found.begin(), found.end()), found.end());
  return found;
}

}  // namespace coatwright
