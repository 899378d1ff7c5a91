#include "plan/booth_steps.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace coatwright {
namespace {

using std::chrono::seconds;

constexpr double kSlowEnd = 0.9;  // as the plan's other work: the 90th percentile

/// Looks for a time at which somebody is free.
class FreeTime {
 public:
  FreeTime(const Plan& plan, const std::vector<StaffedHours>& staffed)
      : plan_(plan), staffed_(staffed) {}

  /// @return the latest start within a span; none: nobody is free for so long.
  [[nodiscard]] std::optional<Time> latest(Interval within, seconds length) const {
    std::optional<Time> best;
    const auto try_end = [&](Time end) {
      const Interval slot{end - length, end};
      const bool is_in = slot.start >= within.start && end <= within.end;
      if (is_in && (!best || slot.start > *best) && is_free(slot)) {
        best = slot.start;
      }
    };
    try_end(within.end);
    for (const PlanStep& step : plan_.steps) {
      try_end(step.start);
    }
    for (const StaffedHours& one : staffed_) {
      try_end(one.open.end);
    }
    return best;
  }

 private:
  [[nodiscard]] bool is_free(Interval slot) const {
    return std::any_of(staffed_.begin(), staffed_.end(), [&](const StaffedHours& one) {
      return one.open.start <= slot.start && slot.end <= one.open.end && busy_in(slot) < one.people;
    });
  }

  /// The people whom steps in a slot take, all together, on the cautious side.
  [[nodiscard]] int busy_in(Interval slot) const {
    int people = 0;
    for (const PlanStep& step : plan_.steps) {
      const bool overlaps = step.start < slot.end && slot.start < step.end;
      people += overlaps && step.attended && !step.done ? step.people : 0;
    }
    return people;
  }

  const Plan& plan_;
  const std::vector<StaffedHours>& staffed_;
};

PlanStep& step_of_id(int id, Plan& plan) {
  return *std::find_if(
      plan.steps.begin(), plan.steps.end(), [id](const PlanStep& one) { return one.id == id; });
}

int next_id(const Plan& plan) {
  int id = 0;
  for (const PlanStep& step : plan.steps) {
    id = std::max(id, step.id);
  }
  return id + 1;
}

PlanStep cleaning_step(Time start, seconds length, const PlanStep& before, const Plan& plan) {
  PlanStep step;
  step.id = next_id(plan);
  step.piece = before.piece;
  step.part = before.part;
  step.kind = StepKind::kCleanBooth;
  step.start = start;
  step.end = start + length;
  step.spray_places = 1;
  step.cautions = {
      "Residue of oil finish and of nitrocellulose ignite together: scrape with tools that do not "
      "spark, keep the scrapings wet with water in lidded metal, and take them off the premises at "
      "once."};
  return step;
}

Time last_use(const std::vector<BoothUse>& uses, Time before, Time otherwise) {
  Time last = otherwise;
  for (const BoothUse& use : uses) {
    last = use.start <= before ? std::max(last, use.end) : last;
  }
  return last;
}

void refuse(const SprayedCoat& coat, Plan& plan) {
  const PlanStep& step = step_of_id(coat.step, plan);
  const std::string why = fmt::format(
      "Before {} is sprayed on {} the booth must be cleaned of what was sprayed before it, which "
      "could ignite with it, and nobody is free for that in between",
      step.product_title,
      step.piece);
  plan.fits = false;
  plan.hold_ups.insert(plan.hold_ups.begin(), {why, seconds(0)});
  plan.warnings.push_back({"booth-not-cleaned", why + ".", coat.step});
}

}  // namespace

void add_booth_cleaning(std::vector<BoothUse> logged,
                        const std::vector<SprayedCoat>& coats,
                        const std::vector<StaffedHours>& staffed,
                        const WorkingTime& cleaning,
                        Plan& plan) {
  std::vector<BoothUse>& uses = logged;
  const auto in_order = [](const BoothUse& a, const BoothUse& b) { return a.start < b.start; };
  const seconds length(
      std::llround(cleaning.duration(Area::from_square_metres(0), kSlowEnd).hours() * 3600.0));
  for (const SprayedCoat& coat : coats) {
    if (ignite_together(residue_before(uses, coat.applied.start), coat.leaves)) {
      const Time free_from = last_use(uses, coat.applied.start, plan.from);
      const auto start = FreeTime(plan, staffed).latest({free_from, coat.applied.start}, length);
      if (start) {
        plan.steps.push_back(cleaning_step(*start, length, step_of_id(coat.step, plan), plan));
        plan.steps.back().work_source = cleaning.source;
        uses.push_back({*start, *start + length, BoothResidue::kNone, true});
      } else {
        refuse(coat, plan);
      }
    }
    uses.push_back({coat.applied.start, coat.applied.end, coat.leaves, false});
    std::stable_sort(uses.begin(), uses.end(), in_order);
  }
}

}  // namespace coatwright
