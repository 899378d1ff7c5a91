#include "scheduling/usable_capacity.h"

#include <algorithm>
#include <numeric>
#include <set>
#include <tuple>

namespace coatwright {
namespace {

constexpr Tick kMostUnits = 10'000;  // of a table of lengths

/// Where uses of a pool may lie, in order and joined.
std::vector<std::pair<Tick, Tick>> places_of(const Project& project, const Pool& pool) {
  if (!pool.holds.empty()) {
    return {{0, kNeverTick}};
  }
  std::set<std::tuple<int, Tick, Tick>> kinds;
  for (const Pool::Use& use : pool.uses) {
    kinds.insert({project.activities[use.activity].starts, use.from, use.to});
  }
  std::vector<std::pair<Tick, Tick>> places;
  for (const auto& [starts, from, to] : kinds) {
    for (const StartSpan& span : project.start_sets[starts].spans) {
      places.emplace_back(span.first + from, std::min(span.last, project.horizon) + to);
    }
  }
  std::sort(places.begin(), places.end());
  std::vector<std::pair<Tick, Tick>> joined;
  for (const auto& place : places) {
    if (!joined.empty() && place.first <= joined.back().second) {
      joined.back().second = std::max(joined.back().second, place.second);
    } else if (place.first < place.second) {
      joined.push_back(place);
    }
  }
  return joined;
}

}  // namespace

UsableCapacity::UsableCapacity(const Project& project, const Pool& pool) {
  find_packings(project, pool);
  for (const auto& [from, until] : places_of(project, pool)) {
    add_opening(pool.capacity, from, until);
  }
  std::int64_t before = 0;
  for (Opening& opening : openings_) {
    opening.before = before;
    before += opening.until >= kNeverTick ? 0 : within(opening, opening.from, opening.until);
  }
}

/// Sums of lengths that can be made, each length as often as wanted.
void UsableCapacity::find_packings(const Project& project, const Pool& pool) {
  if (!pool.holds.empty()) {
    return;
  }
  std::set<Tick> lengths;
  for (const Pool::Use& use : pool.uses) {
    lengths.insert(use.to - use.from);
  }
  Tick divisor = 0;
  for (const Tick length : lengths) {
    divisor = std::gcd(divisor, length);
  }
  unit_ = std::max<Tick>(divisor, 1);
  filled_.assign(1, 0);
  const Tick most_units = std::min(kMostUnits, project.horizon / unit_ + 1);
  for (Tick units = 1; units <= most_units; ++units) {
    Tick most = filled_.back();
    for (const Tick length : lengths) {
      const Tick rest = units - length / unit_;
      if (rest >= 0) {
        most = std::max(most, filled_[rest] + length / unit_);
      }
    }
    filled_.push_back(most);
  }
}

void UsableCapacity::add_opening(const std::vector<CapacityStep>& capacity, Tick from, Tick until) {
  Opening opening{from, until, segments_.size(), segments_.size(), 0};
  for (std::size_t i = 0; i < capacity.size(); ++i) {
    const Tick next = i + 1 < capacity.size() ? capacity[i + 1].at : kNeverTick;
    const Segment segment{
        std::max(from, capacity[i].at), std::min(until, next), capacity[i].capacity};
    if (segment.from < segment.until) {
      segments_.push_back(segment);
    }
  }
  opening.last = segments_.size();
  if (opening.first < opening.last) {
    openings_.push_back(opening);
  }
}

std::int64_t UsableCapacity::within(const Opening& opening, Tick begin, Tick end) const {
  const Tick from = std::max(begin, opening.from);
  const Tick until = std::min(end, opening.until);
  if (from >= until) {
    return 0;
  }
  std::int64_t raw = 0;
  int most = 0;
  for (std::size_t i = opening.first; i < opening.last; ++i) {
    const Tick length = std::min(until, segments_[i].until) - std::max(from, segments_[i].from);
    if (length > 0) {
      raw += std::int64_t{length} * segments_[i].capacity;
      most = std::max(most, segments_[i].capacity);
    }
  }
  const Tick units = (until - from) / unit_;
  if (filled_.empty() || units >= static_cast<Tick>(filled_.size())) {
    return raw;
  }
  return std::min(raw, std::int64_t{most} * filled_[units] * unit_);
}

std::int64_t UsableCapacity::between(Tick begin, Tick end) const {
  const auto after = [&](Tick moment) {
    return std::upper_bound(
        openings_.begin(), openings_.end(), moment, [](Tick wanted, const Opening& one) {
          return wanted < one.from;
        });
  };
  const auto first = after(begin);
  const auto last = after(end);
  std::int64_t sum = 0;
  if (first != openings_.begin()) {
    sum += within(*std::prev(first), begin, end);
  }
  if (last - first >= 1) {
    sum += std::prev(last)->before - first->before + within(*std::prev(last), begin, end);
  }
  return sum;
}

Tick UsableCapacity::reached(Tick begin, std::int64_t energy) const {
  if (energy <= 0) {
    return begin;
  }
  Tick falls_short = begin;
  Tick reaches = kNeverTick - 1;
  if (between(begin, reaches) < energy) {
    return kNeverTick;
  }
  while (reaches - falls_short > 1) {
    const Tick middle = falls_short + (reaches - falls_short) / 2;
    (between(begin, middle) < energy ? falls_short : reaches) = middle;
  }
  return reaches;
}

std::vector<std::int64_t> UsableCapacity::by_slots(Tick length, std::size_t count) const {
  std::vector<std::int64_t> sums(count, 0);
  for (const Segment& segment : segments_) {
    for (auto slot = static_cast<std::size_t>(segment.from / length); slot < count; ++slot) {
      const Tick begin = static_cast<Tick>(slot) * length;
      if (begin >= segment.until) {
        break;
      }
      const Tick inside = std::min(segment.until, begin + length) - std::max(segment.from, begin);
      sums[slot] += std::int64_t{inside} * segment.capacity;
    }
  }
  return sums;
}

}  // namespace coatwright
