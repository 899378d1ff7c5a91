#pragma once

#include "plan/plan_checker.h"

/// The second half of the checker: the log, wiping and rags, faces, and the plan as a whole.
namespace own {

/// What was done stands first, entry by entry, each with its place in the log as its number.
inline void PlanChecker::check_log() {
  std::size_t place = 0;
  for (std::size_t i = 0; i < request_.piece.log.size(); ++i) {
    const LoggedWork& entry = request_.piece.log[i];
    if (entry.left_out) {
      continue;
    }
    if (place == plan_.steps.size() || !plan_.steps[place].done) {
      fault("entry {} of the log is not in the plan", i + 1);
      return;
    }
    const PlanStep& step = plan_.steps[place++];
    const bool same = step.id == static_cast<int>(i) + 1 && step.kind == entry.kind &&
                      step.product == entry.product_name && step.grit == entry.grit &&
                      step.start == entry.at && step.end == entry.at && step.after.empty();
    const std::set<int> faces(entry.faces.begin(), entry.faces.end());
    if (!same || faces_of(step) != faces) {
      step_fault(step, fmt::format("is not entry {} of the log", i + 1));
    }
    if (entry.kind == StepKind::kApply && step.coat != log_.numbers[i]) {
      step_fault(step, fmt::format("is coat {} of the schedule", log_.numbers[i]));
    }
  }
  for (; place < plan_.steps.size(); ++place) {
    if (plan_.steps[place].done) {
      step_fault(plan_.steps[place], "is done, but not in the log");
    }
  }
  check_left_open();
}

/// Wiping and rags that the log left open come first, as soon as they may.
inline void PlanChecker::check_left_open() {
  Time free = std::max(request_.from, log_.last_at.value_or(request_.from));
  std::size_t next = first_open();
  const auto is_next = [&](StepKind kind) {
    return next < plan_.steps.size() && plan_.steps[next].kind == kind;
  };
  const SeenCoat* open = nullptr;
  std::set<int> faces;
  for (const SeenCoat& coat : log_.coats) {
    if (is_wiping_open(coat)) {
      open = open == nullptr ? &coat : open;
      faces.insert(coat.faces.begin(), coat.faces.end());
    }
  }
  if (open != nullptr) {
    const auto soaks = seconds(std::llround(open->product->wipe_off->opens.hours() * 3600.0));
    free = std::max(free, open->begun + soaks);
    if (!is_next(StepKind::kWipe) || plan_.steps[next].start != free ||
        faces_of(plan_.steps[next]) != faces || plan_.steps[next].coat != open->number) {
      fault("the wiping of a logged coat is not the first thing to be done");
      return;
    }
    free = plan_.steps[next++].end;
  }
  const bool has_rags =
      log_.open_rags != nullptr || (open != nullptr && open->product->hazards.rags_self_heat);
  if (has_rags && (!is_next(StepKind::kRags) || plan_.steps[next].start != free)) {
    fault("the rags of a logged coat are not seen to first");
  }
}

inline void PlanChecker::check_wiping() {
  const auto& steps = plan_.steps;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const PlanStep& step = steps[i];
    if (step.done) {
      continue;
    }
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
    if (step.kind != StepKind::kWipe || i == 0 || is_left_open(step)) {
      continue;  // check_left_open() has seen what the log left open
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
    if (step.kind == StepKind::kApply && !step.done && dusty_until &&
        step.start < *dusty_until + minutes(15)) {
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
  int up = log_.up;
  std::set<int> planned[2];
  for (const PlanStep& step : plan_.steps) {
    if (step.done) {
      continue;
    }
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
        planned[face].insert(step.coat);
      }
    }
  }
  for (int face = 0; face < (request_.piece.faces == Faces::kOne ? 1 : 2); ++face) {
    for (int number = 1; number <= static_cast<int>(scheduled_coats().size()); ++number) {
      const bool is_planned = planned[face].contains(number);
      if (is_planned && log_.is_behind(face, number)) {
        fault("coat {} on face {} is behind by the log, and planned again", number, face);
      }
      if (plan_.complete && !is_planned && !log_.is_behind(face, number)) {
        fault("coat {} on face {} is never put on", number, face);
      }
    }
  }
}

inline void PlanChecker::check_ends() {
  Time last = request_.from;
  if (first_open() == plan_.steps.size()) {
    last = log_.last_at.value_or(last);  // all is done, and ended then
  }
  for (std::size_t i = first_open(); i < plan_.steps.size(); ++i) {
    last = std::max(last, plan_.steps[i].end);
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
        if (coat != nullptr && coat->came_in) {
          return;  // nothing was put on
        }
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

/// Square metres that a litre covers with the usual tool, of a product without a thinner. The
/// figures are those of recipes/application.toml, typed once more.
inline double own_cover(const ScheduleStep& step, const Product& product) {
  const std::map<Method, double> on_the_wood = {
      {Method::kWipe, 0.85}, {Method::kBrush, 0.95}, {Method::kPad, 0.90}, {Method::kSpray, 0.60}};
  const double share = on_the_wood.at(step.method);
  if (step.wet_film) {
    return 1000.0 * share / step.wet_film->micrometres();
  }
  if (product.film.reference_wet && step.method != Method::kWipe) {
    return 1000.0 * share / product.film.reference_wet->value.micrometres();
  }
  return product.film.spread_low_m2_per_l * (step.method == Method::kSpray ? share : 1.0);
}

inline void PlanChecker::check_quantities() {
  constexpr double kWithWaste = 1.1;
  // Coats that are still to come, each on one face.
  std::map<std::string, double> left;
  for (int face = 0; face < (request_.piece.faces == Faces::kOne ? 1 : 2); ++face) {
    for (int number = 1; number <= static_cast<int>(scheduled_coats().size()); ++number) {
      const ScheduleStep& step = *scheduled_coats()[static_cast<std::size_t>(number) - 1];
      if (!log_.is_behind(face, number)) {
        left[step.product] += kWithWaste * request_.piece.area.square_metres() /
                              own_cover(step, **book_.product(step.product));
      }
    }
  }
  for (const PlannedQuantity& quantity : plan_.quantities) {
    const auto litres = left.find(quantity.product);
    if (litres == left.end() || std::abs(quantity.amount.litres() - litres->second) > 1e-9) {
      fault("{} litres of {} should be {}",
            quantity.amount.litres(),
            quantity.product,
            litres == left.end() ? 0.0 : litres->second);
    }
  }
  if (left.size() != plan_.quantities.size()) {
    fault("{} products, but {} quantities", left.size(), plan_.quantities.size());
  }
}

}  // namespace own
