#include <algorithm>

#include "plan/advice_candidates.h"
#include "recipe/schedule_check.h"

namespace coatwright {
namespace {

constexpr std::size_t kMostSchedules = 6;
// As the burdens of advice_candidates.cpp. Source: judgement.
constexpr double kBurdenOfOtherSchedule = 8.0;
constexpr double kBurdenOfUnlikeness = 3.0;
constexpr double kBurdenOfLostUse = 3.0;
constexpr double kBurdenOfCoat = 9.0;

bool is_coat(const LoggedWork& entry) {
  return entry.kind == StepKind::kApply && !entry.left_out;
}

bool is_begun(const PartRequest& part) {
  return std::any_of(part.finish.log.begin(), part.finish.log.end(), is_coat);
}

/// Each schedule of a piece with the first of the parts that have it.
std::vector<const PartRequest*> parts_by_schedule(const JobRequest& job) {
  std::vector<const PartRequest*> parts;
  for (const PartRequest& part : job.parts) {
    const bool known = std::any_of(parts.begin(), parts.end(), [&](const PartRequest* one) {
      return one->finish.schedule->name == part.finish.schedule->name;
    });
    if (!known) {
      parts.push_back(&part);
    }
  }
  return parts;
}

std::vector<std::string> uses_lost(const Schedule& present, const Schedule& other) {
  std::vector<std::string> lost;
  for (const std::string& use : present.suits) {
    if (std::find(other.suits.begin(), other.suits.end(), use) == other.suits.end()) {
      lost.push_back(use);
    }
  }
  return lost;
}

bool sprays(const Schedule& schedule) {
  return std::any_of(schedule.steps.begin(), schedule.steps.end(), [](const ScheduleStep& step) {
    return step.kind == ScheduleStepKind::kCoat && step.method == Method::kSpray;
  });
}

/// A schedule of the same look for one of the same uses, made concrete for the part's wood; null:
/// it is none.
const Schedule* in_place_of(const Schedule& present,
                            const std::string& name,
                            const PieceSurface& surface,
                            const RecipeBook& book) {
  const auto plain = book.schedule(name);
  if (!plain || name == present.name || (*plain)->look != present.look ||
      uses_lost(present, **plain).size() == present.suits.size()) {
    return nullptr;
  }
  const auto concrete = book.schedule_for(name, surface);
  if (!concrete) {
    return nullptr;
  }
  const auto findings = check_pairs(**concrete, surface.over, book);
  return findings && first_refusal(*findings) == nullptr ? *concrete : nullptr;
}

PieceSurface surface_of(const AdviceBasis& basis, const JobRequest& job, const PartRequest& part) {
  PieceSurface surface;
  surface.species = part.finish.species;
  if (const auto left = basis.request.surfaces.find(job.name);
      left != basis.request.surfaces.end()) {
    surface.wood = left->second;
  }
  surface.over = part.finish.over ? part.finish.over->product : nullptr;
  return surface;
}

Scan others_for(const AdviceBasis& basis, const JobRequest& job, const PartRequest& part) {
  const Schedule& present = *part.finish.schedule;
  const bool may_spray = basis.request.shop.resources.spray_places != 0;
  Scan scan;
  for (const std::string& name : basis.book.schedule_names()) {
    const Schedule* other = in_place_of(present, name, surface_of(basis, job, part), basis.book);
    if (other == nullptr || (sprays(*other) && !may_spray)) {
      continue;
    }
    Change change;
    change.kind = ChangeKind::kOtherSchedule;
    change.piece = job.name;
    change.was = present.name;
    change.schedule = std::make_shared<const Schedule>(*other);
    change.lacks = uses_lost(present, *other);
    change.burden = kBurdenOfOtherSchedule +
                    kBurdenOfUnlikeness * unlikeness(present, *other, basis.book) +
                    kBurdenOfLostUse * static_cast<double>(change.lacks.size());
    scan.push_back(std::move(change));
  }
  std::stable_sort(scan.begin(), scan.end(), [](const Change& a, const Change& b) {
    return a.burden < b.burden;
  });
  scan.resize(std::min(scan.size(), kMostSchedules));
  return scan;
}

bool rubs_out(const Schedule& schedule) {
  return std::any_of(schedule.steps.begin(), schedule.steps.end(), [](const ScheduleStep& step) {
    return step.kind == ScheduleStepKind::kRubOut;
  });
}

int coats_of(const std::string& product, const Schedule& schedule) {
  int coats = 0;
  for (const ScheduleStep& step : schedule.steps) {
    const bool is_its = step.kind == ScheduleStepKind::kCoat && step.product == product;
    coats += is_its ? step.coats : 0;
  }
  return coats;
}

int coats_logged(const std::string& product, const PartRequest& part) {
  return static_cast<int>(
      std::count_if(part.finish.log.begin(), part.finish.log.end(), [&](const LoggedWork& entry) {
        return is_coat(entry) && entry.product_name == product;
      }));
}

/// The last coats of a schedule where they are several: those that wear in place of the rest.
ScheduleStep* last_coats(Schedule& schedule) {
  const auto found =
      std::find_if(schedule.steps.rbegin(), schedule.steps.rend(), [](const ScheduleStep& step) {
        return step.kind == ScheduleStepKind::kCoat;
      });
  return found != schedule.steps.rend() && found->coats > 1 ? &*found : nullptr;
}

}  // namespace

Scan schedule_changes(const AdviceBasis& basis, const JobRequest& job) {
  Scan scan;
  if (std::any_of(job.parts.begin(), job.parts.end(), is_begun)) {
    return scan;
  }
  for (const PartRequest* part : parts_by_schedule(job)) {
    const Scan others = others_for(basis, job, *part);
    scan.insert(scan.end(), others.begin(), others.end());
  }
  return scan;
}

Scan coat_changes(const AdviceBasis& basis, const JobRequest& job) {
  Scan scan;
  for (const PartRequest* part : parts_by_schedule(job)) {
    auto fewer = std::make_shared<Schedule>(*part->finish.schedule);
    ScheduleStep* step = rubs_out(*fewer) ? nullptr : last_coats(*fewer);
    const auto product =
        step == nullptr ? nullptr : basis.book.product(step->product).value_or(nullptr);
    if (product == nullptr || !product->usual_coats) {
      continue;
    }
    const int left = coats_of(step->product, *fewer) - 1;
    if (left < product->usual_coats->low || coats_logged(step->product, *part) > left) {
      continue;
    }
    --step->coats;
    Change change;
    change.kind = ChangeKind::kCoatFewer;
    change.piece = job.name;
    change.was = part->finish.schedule->name;
    change.amount = left;
    change.product_title = product->title;
    change.usual_least = product->usual_coats->low;
    change.usual_most = product->usual_coats->high;
    change.schedule = std::move(fewer);
    change.burden = kBurdenOfCoat;
    scan.push_back(std::move(change));
  }
  return scan;
}

}  // namespace coatwright
