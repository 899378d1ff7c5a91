#include "scheduling/profile.h"

#include <algorithm>

namespace coatwright {
namespace {

/// Before any moment that a project can name: nothing is there.
constexpr Tick kBeforeAll = -kNeverTick;

}  // namespace

Profile::Profile(std::span<const CapacityStep> capacity) {
  segments_.push_back({kBeforeAll, 0});
  for (const CapacityStep& step : capacity) {
    if (step.capacity != segments_.back().free) {
      segments_.push_back({step.at, step.capacity});
    }
  }
}

std::size_t Profile::segment_at(Tick tick) const {
  const auto after = std::upper_bound(
      segments_.begin(), segments_.end(), tick, [](Tick wanted, const Segment& one) {
        return wanted < one.from;
      });
  return after == segments_.begin() ? 0 : static_cast<std::size_t>(after - segments_.begin()) - 1;
}

std::optional<Profile::Shortage> Profile::last_shortage(Tick begin, Tick end, int amount) const {
  std::optional<std::size_t> short_at;
  const std::size_t first = segment_at(begin);
  std::size_t segment = first;
  for (; segment < segments_.size() && segments_[segment].from < end; ++segment) {
    if (segments_[segment].free < amount) {
      short_at = segment;
    }
  }
  if (!short_at) {
    return std::nullopt;
  }
  std::size_t last = *short_at;
  while (last + 1 < segments_.size() && segments_[last + 1].free < amount) {
    ++last;
  }
  return Shortage{segments_[*short_at].from, end_of(last)};
}

std::optional<Profile::Shortage> Profile::first_shortage(Tick begin, Tick end, int amount) const {
  for (std::size_t segment = segment_at(begin);
       segment < segments_.size() && segments_[segment].from < end;
       ++segment) {
    if (segments_[segment].free >= amount) {
      continue;
    }
    std::size_t first = segment;
    while (first > 0 && segments_[first - 1].free < amount) {
      --first;
    }
    return Shortage{segments_[first].from, end_of(segment)};
  }
  return std::nullopt;
}

std::size_t Profile::split(Tick at) {
  const std::size_t segment = segment_at(at);
  if (segments_[segment].from == at) {
    return segment;
  }
  segments_.insert(segments_.begin() + static_cast<std::ptrdiff_t>(segment) + 1,
                   Segment{at, segments_[segment].free});
  return segment + 1;
}

void Profile::join(std::size_t segment) {
  if (segment > 0 && segment < segments_.size() &&
      segments_[segment].free == segments_[segment - 1].free) {
    segments_.erase(segments_.begin() + static_cast<std::ptrdiff_t>(segment));
  }
}

void Profile::take(Tick begin, Tick end, int amount) {
  if (begin >= end || amount == 0) {
    return;
  }
  const std::size_t first = split(begin);
  const std::size_t last = split(end);
  for (std::size_t segment = first; segment < last; ++segment) {
    segments_[segment].free -= amount;
  }
  join(last);
  join(first);
}

}  // namespace coatwright
