#include "plan/shop_load.h"

#include <algorithm>
#include <map>
#include <optional>

#include <fmt/format.h>

namespace coatwright {
namespace {

constexpr std::chrono::minutes kWorthSaying{30};

using Use = int PlanStep::*;

/// How much is taken from each moment on.
std::map<Time, int> load_of(const Plan& plan, Use use) {
  std::map<Time, int> changes;
  for (const PlanStep& step : plan.steps) {
    const bool absent = step.done || (use == &PlanStep::people && !step.attended);
    if (!absent && step.start < step.end) {
      changes[step.start] += step.*use;
      changes[step.end] -= step.*use;
    }
  }
  int used = 0;
  for (auto& [at, change] : changes) {
    used += change;
    change = used;
  }
  return changes;
}

/// People that are there at a moment.
int people_at(const Plan& plan, Time time) {
  for (const StaffedHours& one : plan.shop->hours) {
    if (one.open.start <= time && time < one.open.end) {
      return one.people;
    }
  }
  return plan.shop->people;
}

void add_stretch(ShortStretch stretch, std::vector<ShortStretch>& into) {
  if (!into.empty() && stretch.start - into.back().end < kWorthSaying) {
    into.back().end = std::max(into.back().end, stretch.end);
  } else {
    into.push_back(std::move(stretch));
  }
}

template <class Capacity>
std::vector<ShortStretch> stretches_of(const Plan& plan,
                                       Use use,
                                       const std::string& what,
                                       const Capacity& capacity_at) {
  std::vector<ShortStretch> stretches;
  const auto load = load_of(plan, use);
  for (auto at = load.begin(); at != load.end() && std::next(at) != load.end(); ++at) {
    if (at->second > 0 && at->second >= capacity_at(at->first)) {
      add_stretch({what, at->first, std::next(at)->first}, stretches);
    }
  }
  std::erase_if(stretches,
                [](const ShortStretch& one) { return one.end - one.start < kWorthSaying; });
  return stretches;
}

std::string all_of(int count, std::string_view one, std::string_view several) {
  return count == 1 ? fmt::format("the {}", one) : fmt::format("all {} {}", count, several);
}

}  // namespace

PlanShop plan_shop_of(const ShopRequest& request) {
  PlanShop shop;
  shop.hours = request.hours;
  for (const StaffedHours& one : request.hours) {
    shop.people = std::max(shop.people, one.people);
  }
  shop.spray_places = request.resources.spray_places;
  shop.rack_places = request.resources.rack_places;
  shop.benches = request.resources.benches;
  return shop;
}

std::vector<ShortStretch> shortages_of(const Plan& plan) {
  std::vector<ShortStretch> all;
  if (!plan.shop) {
    return all;
  }
  const auto add = [&](std::vector<ShortStretch> some) {
    all.insert(all.end(), some.begin(), some.end());
  };
  const auto add_places = [&](const std::optional<int>& count, Use use, auto one, auto several) {
    if (count) {
      add(stretches_of(plan, use, all_of(*count, one, several), [&](Time) { return *count; }));
    }
  };
  // One person at work is no news: the calendar says it line by line.
  if (plan.shop->people > 1) {
    add(stretches_of(
        plan, &PlanStep::people, "everybody", [&](Time time) { return people_at(plan, time); }));
  }
  add_places(plan.shop->spray_places, &PlanStep::spray_places, "spray place", "spray places");
  add_places(plan.shop->rack_places, &PlanStep::rack_places, "rack place", "rack places");
  add_places(plan.shop->benches, &PlanStep::benches, "bench", "benches");
  std::stable_sort(all.begin(), all.end(), [](const ShortStretch& a, const ShortStretch& b) {
    return a.start < b.start;
  });
  return all;
}

}  // namespace coatwright
