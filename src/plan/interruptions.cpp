#include "plan/interruptions.h"

#include <algorithm>
#include <set>
#include <utility>

namespace coatwright {
namespace {

/// Whether people are there all the time from one moment to another.
bool is_staffed(const Resource& people, Tick from, Tick to) {
  int there = 0;
  for (const CapacityStep& step : people.capacity) {
    if (step.at >= to) {
      break;
    }
    if (step.at > from && there == 0) {
      return false;
    }
    there = step.capacity;
  }
  return there > 0;
}

}  // namespace

int gun_cleanings(const ShopModel& model) {
  std::set<int> cleaned;
  for (const auto& sessions : model.sessions) {
    for (const ModelSession& session : sessions) {
      for (const SessionPart& part : session.session.parts) {
        if (part.kind == StepKind::kCleanGun) {
          cleaned.insert(session.activity);
        }
      }
    }
  }
  return static_cast<int>(cleaned.size());
}

int breaks_in_work(const ShopModel& model, const StartTimes& schedule) {
  std::vector<std::pair<Tick, Tick>> works;
  for (std::size_t i = 0; i < model.project.activities.size(); ++i) {
    const Tick length = model.project.activities[i].length;
    if (length > 0) {
      works.emplace_back(schedule.starts[i], schedule.starts[i] + length);
    }
  }
  std::sort(works.begin(), works.end());
  const Resource& people =
      model.project.resources[static_cast<std::size_t>(model.resources.people)];
  int breaks = 0;
  Tick busy_until = works.empty() ? 0 : works.front().first;
  for (const auto& [start, end] : works) {
    breaks += start > busy_until && is_staffed(people, busy_until, start) ? 1 : 0;
    busy_until = std::max(busy_until, end);
  }
  return breaks;
}

}  // namespace coatwright
