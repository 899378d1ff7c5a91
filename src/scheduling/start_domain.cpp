#include "scheduling/start_domain.h"

namespace coatwright {
namespace {

Tick rounded_up(Tick tick, Tick grain) {
  const Tick rest = tick % grain;
  return rest == 0 ? tick : tick - rest + (rest > 0 ? grain : 0);
}

}  // namespace

StartNumbering::StartNumbering(const StartSet& set, Tick grain, Tick earliest, Tick latest)
    : grain_(grain) {
  std::vector<StartSpan> runs;
  for (const StartSpan& span : set.spans) {
    const Tick first = rounded_up(std::max(span.first, earliest), grain);
    const Tick last = std::min(span.last, latest);
    if (first <= last) {
      const int count = (last - first) / grain + 1;
      runs.push_back({first, first + (count - 1) * grain});
      size_ += count;
    }
  }
  if (runs.empty()) {
    return;
  }
  first_ = runs.front().first;
  last_ = runs.back().last;
  if (runs.size() == 1) {
    return;
  }
  for (const StartSpan& run : runs) {
    // What lies between two runs is rounded up to the first start of the later one.
    numbers_.resize(static_cast<std::size_t>((run.first - first_) / grain),
                    static_cast<int>(ticks_.size()));
    for (Tick tick = run.first; tick <= run.last; tick += grain) {
      numbers_.push_back(static_cast<int>(ticks_.size()));
      ticks_.push_back(tick);
    }
  }
}

StartDomain StartDomain::without(const std::vector<char>& barred) const {
  auto chosen = std::make_shared<Chosen>();
  chosen->begin = number_of(0);
  chosen->size = size_;
  for (int i = 0; i < size_; ++i) {
    chosen->indices.push_back(static_cast<int>(chosen->numbers.size()));
    if (barred[static_cast<std::size_t>(i)] == 0) {
      chosen->numbers.push_back(number_of(i));
      chosen->ticks.push_back(tick_of(i));
    }
  }
  StartDomain left = *this;
  left.size_ = static_cast<int>(chosen->numbers.size());
  if (left.size_ == size_) {
    return left;
  }
  chosen->indices.push_back(left.size_);
  left.begin_ = 0;
  left.ticks_ = chosen->ticks.data();
  left.chosen_ = std::move(chosen);
  return left;
}

}  // namespace coatwright
