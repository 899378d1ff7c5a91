#include "scheduling/work_breaks.h"

#include <algorithm>
#include <utility>

namespace coatwright {

WorkBreaks::WorkBreaks(const Project& project, int people) : project_(project) {
  int there = 0;
  for (const CapacityStep& step : project.resources[people].capacity) {
    if (step.capacity > 0 && there == 0) {
      staffed_.push_back({step.at, kNeverTick});
    } else if (step.capacity == 0 && there > 0) {
      staffed_.back().last = step.at;
    }
    there = step.capacity;
  }
}

bool WorkBreaks::is_staffed(Tick from, Tick to) const {
  const auto span =
      std::upper_bound(staffed_.begin(), staffed_.end(), from, [](Tick tick, const StartSpan& one) {
        return tick < one.last;
      });
  return span != staffed_.end() && span->first <= from && to <= span->last;
}

/// Whether something could begin in a stretch: less than a grain is no break.
bool WorkBreaks::is_idle(Tick from, Tick to) const {
  const Tick grain = project_.grain;
  return (from + grain - 1) / grain * grain < to;
}

std::vector<std::pair<Tick, int>> WorkBreaks::by_start(const std::vector<Tick>& starts) const {
  std::vector<std::pair<Tick, int>> works;
  for (std::size_t i = 0; i < starts.size(); ++i) {
    if (project_.activities[i].length > 0) {
      works.emplace_back(starts[i], static_cast<int>(i));
    }
  }
  std::sort(works.begin(), works.end());
  return works;
}

std::vector<WorkBlock> WorkBreaks::blocks(const std::vector<Tick>& starts) const {
  std::vector<WorkBlock> blocks;
  for (const auto& [start, activity] : by_start(starts)) {
    if (blocks.empty() || is_idle(blocks.back().to, start)) {
      const bool goes_on = !blocks.empty() && is_staffed(blocks.back().to, start);
      blocks.push_back({start, start, {}, goes_on});
    }
    WorkBlock& block = blocks.back();
    block.activities.push_back(activity);
    block.to = std::max(block.to, start + project_.activities[activity].length);
  }
  return blocks;
}

int WorkBreaks::count(const std::vector<Tick>& starts) const {
  const std::vector<WorkBlock> all = blocks(starts);
  return static_cast<int>(std::count_if(
      all.begin(), all.end(), [](const WorkBlock& block) { return block.after_break; }));
}

}  // namespace coatwright
