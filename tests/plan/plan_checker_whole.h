#pragma once

#include "plan/plan_checker.h"

/// The second half of the checker: wiping and rags, faces, and the plan as a whole.
namespace own {

inline void PlanChecker::check_wiping() {
  const auto& steps = plan_.steps;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const PlanStep& step = steps[i];
    if (step.kind == StepKind::kApply || step.kind == StepKind::kWipe) {
      const Product& product = **book_.product(step.product);
      const bool last = i + 1 == steps.size() || (steps[i + 1].kind != StepKind::kApply &&
                                                  steps[i + 1].kind != StepKind::kWipe);
      const bool rags_next = i + 1 < steps.size() && steps[i + 1].kind == StepKind::kRags &&
                             steps[i + 1].start == step.end;
      if (last && product.hazards.rags_self_heat && !rags_next) {
        step_fault(step, "the rags are not put away right after it");
      }
      const bool to_wipe = step.kind == StepKind::kApply && product.wipe_off.has_value();
      if (to_wipe && (i + 1 == steps.size() || steps[i + 1].kind != StepKind::kWipe)) {
        step_fault(step, "its excess is never wiped off");
      }
    }
    if (step.kind != StepKind::kWipe || i == 0) {
      continue;
    }
    const PlanStep& on = steps[i - 1];
    const Product& product = **book_.product(step.product);
    if (on.kind != StepKind::kApply || !product.wipe_off) {
      step_fault(step, "nothing was put on just before it");
      continue;
    }
    const WipeOff& wipe = *product.wipe_off;
    // First spot: wetted at on.start, wiped at step.start; last spot: on.end and step.end. A
    // spot's window closes by the label or, sooner, by its own clock.
    const std::pair<Time, Time> spots[] = {{on.start, step.start}, {on.end, step.end}};
    for (const auto& [wetted, wiped] : spots) {
      const double soaked = static_cast<double>((wiped - wetted).count()) / 60.0;
      const Time label = wetted + seconds(std::llround(wipe.closes.hours() * 3600.0));
      const Time closes =
          walk_.reached(wipe.closing_law, std::nullopt, wetted, wipe.closes.hours(), label)
              .value_or(label);
      if (soaked < wipe.opens.minutes() - 0.01) {
        step_fault(step, fmt::format("a spot soaks for {:.1f} min only", soaked));
      }
      if (wiped > closes + seconds(60)) {
        step_fault(step,
                   fmt::format("a spot is wiped after {:.1f} min; the window closes after {:.1f}",
                               soaked,
                               static_cast<double>((closes - wetted).count()) / 60.0));
      }
    }
  }
}

inline void PlanChecker::check_settling() {
  std::optional<Time> dusty_until;
  for (const PlanStep& step : plan_.steps) {
    if (step.kind == StepKind::kSand || step.kind == StepKind::kAbrade) {
      dusty_until = step.end;
    }
    if (step.kind == StepKind::kApply && dusty_until && step.start < *dusty_until + minutes(15)) {
      step_fault(step, "the dust of sanding has not settled for 15 minutes");
    }
    const double dew = dew_point(step.air.temperature.kelvin(), step.air.humidity.fraction());
    if (std::abs(dew - step.air.dew_point.kelvin()) > 0.01) {
      step_fault(step, "its dew point is wrong");
    }
  }
}

inline void PlanChecker::check_faces() {
  // Which face is up: a face cannot be coated while the other is, without turning the piece over.
  int up = -1;
  int numbers[2] = {0, 0};
  for (const PlanStep& step : plan_.steps) {
    if (step.kind == StepKind::kFlip) {
      up = 1 - up;
    }
    if (step.kind == StepKind::kApply && request_.piece.faces == Faces::kTwo) {
      const int face = *faces_of(step).begin();
      if (up >= 0 && face != up) {
        step_fault(step, "the face is turned down");
      }
      up = face;
    }
    if (step.kind == StepKind::kApply) {
      for (const int face : faces_of(step)) {
        numbers[face] = std::max(numbers[face], step.coat);
      }
    }
  }
  const int asked = static_cast<int>(scheduled_coats().size());
  if (plan_.complete && numbers[0] != asked) {
    fault("{} coats on the first face; the schedule has {}", numbers[0], asked);
  }
  if (plan_.complete && request_.piece.faces != Faces::kOne && numbers[0] != numbers[1]) {
    fault("{} coats on one face, {} on the other", numbers[0], numbers[1]);
  }
}

inline void PlanChecker::check_ends() {
  Time last = request_.from;
  for (const PlanStep& step : plan_.steps) {
    last = std::max(last, step.end);
  }
  if (plan_.complete != plan_.finish.has_value()) {
    fault("complete, but without an end, or the other way round");
  }
  if (plan_.finish && *plan_.finish != last) {
    fault("ends at {}, but its last step at {}", show_utc(*plan_.finish), show_utc(last));
  }
  if (plan_.finish && *plan_.finish > request_.horizon) {
    fault("ends after the horizon");
  }
  if (plan_.fits != (plan_.finish && *plan_.finish <= request_.by)) {
    fault("says wrongly whether it fits");
  }
  if (plan_.finish && plan_.bound && *plan_.bound > *plan_.finish) {
    fault("ends before its bound");
  }
  // The chance is the highest confidence at which a plan fits, to 1/128.
  if (plan_.fits && plan_.chance < request_.confidence - 0.01) {
    fault("fits at {} but states a chance of {}", request_.confidence, plan_.chance);
  }
  if (!plan_.fits && plan_.chance > request_.confidence + 0.01) {
    fault("does not fit at {} but states a chance of {}", request_.confidence, plan_.chance);
  }
}

inline void PlanChecker::check_milestones() {
  const std::vector<std::string> order = {
      "dust-free", "handle", "print-free", "light-use", "full-cure"};
  std::size_t seen = 0;
  std::optional<Time> before;
  for (const Milestone& milestone : plan_.milestones) {
    const auto place = std::find(order.begin(), order.end(), milestone.stage) - order.begin();
    if (static_cast<std::size_t>(place) < seen || (before && milestone.at < *before)) {
      fault("milestone {} at {} is out of order", milestone.stage, show_utc(milestone.at));
    }
    seen = static_cast<std::size_t>(place);
    before = milestone.at;
    // Our own integral over months would take long: the later stages are left to their order.
    if (place < 2) {
      std::optional<Time> latest;
      for (const int face : {0, 1}) {
        const SeenCoat* coat = top(face, Time::max());
        const DryingStage* drying =
            coat == nullptr ? nullptr : coat->product->stage(*stage_named(milestone.stage));
        const auto at =
            drying == nullptr
                ? std::nullopt
                : reached_by(*coat, drying->timing, milestone.at + std::chrono::hours(1));
        latest = std::max(latest, at);
      }
      if (!latest || std::chrono::abs(*latest - milestone.at) > kTimeSlack) {
        fault("milestone {} at {} should be at {}",
              milestone.stage,
              show_utc(milestone.at),
              latest ? show_utc(*latest) : "another time");
      }
    }
  }
}

inline void PlanChecker::check_quantities() {
  const int faces = request_.piece.faces == Faces::kOne ? 1 : 2;
  for (const PlannedQuantity& quantity : plan_.quantities) {
    int coats = 0;
    for (const ScheduleStep* coat : scheduled_coats()) {
      coats += coat->product == quantity.product ? 1 : 0;
    }
    const double litres = coats * faces * request_.piece.area.square_metres() /
                          (*book_.product(quantity.product))->film.spread_low_m2_per_l;
    if (coats == 0 || std::abs(quantity.amount.litres() - litres) > 1e-9) {
      fault("{} litres of {} should be {}", quantity.amount.litres(), quantity.product, litres);
    }
  }
  std::set<std::string> products;
  for (const ScheduleStep* coat : scheduled_coats()) {
    products.insert(coat->product);
  }
  if (products.size() != plan_.quantities.size()) {
    fault("{} products, but {} quantities", products.size(), plan_.quantities.size());
  }
}

}  // namespace own
