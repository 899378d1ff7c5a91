#pragma once

#include <set>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "plan/own_drying.h"
#include "plan/plan.h"
#include "plan/planner.h"
#include "recipe/recipe_book.h"

/// Checks a finished plan against its request, the air and the recipes, without the planner's code:
/// what a plan must keep is written down here once more.
namespace own {

using namespace coatwright;
using std::chrono::minutes;
using std::chrono::seconds;

/// A coat as the plan's steps show it.
struct SeenCoat {
  const Product* product = nullptr;
  int number = 0;
  std::set<int> faces;
  Time begun;
  Time ended;
  int last_step = 0;
  double film_ratio = 1.0;
  std::optional<double> gate;
  bool abraded_first = false;
};

inline std::optional<double> gate_of(const Product& product) {
  const auto& minimum = product.limits.temperature_min;
  return minimum ? std::optional(minimum->value.kelvin()) : std::nullopt;
}

class PlanChecker {
 public:
  PlanChecker(const Plan& plan,
              const PlanRequest& request,
              const RecipeBook& book,
              const AirRecord& air)
      : plan_(plan), request_(request), book_(book), walk_(air, request.from) {
    find_coats();
  }

  /// @return a sentence for each thing that is wrong.
  std::vector<std::string> faults() {
    check_hours();
    for (const SeenCoat& coat : coats_) {
      check_limits(coat);
      check_window(coat);
    }
    for (const PlanStep& step : plan_.steps) {
      for (const Wait& wait : step.after) {
        check_wait(step, wait);
      }
      check_films(step);
    }
    check_wiping();
    check_settling();
    check_faces();
    check_ends();
    check_milestones();
    check_quantities();
    return std::move(faults_);
  }

 private:
  static constexpr double kHoursSlack = 0.02;
  static constexpr minutes kTimeSlack{2};

  template <class... Args>
  void fault(fmt::format_string<Args...> text, Args&&... args) {
    faults_.push_back(fmt::format(text, std::forward<Args>(args)...));
  }
  void step_fault(const PlanStep& step, const std::string& text) {
    faults_.push_back(fmt::format("step {} ({} {} of coat {}, {}): {}",
                                  step.id,
                                  name_of(step.kind),
                                  step.product,
                                  step.coat,
                                  show_utc(step.start),
                                  text));
  }

  static std::set<int> faces_of(const PlanStep& step) {
    if (step.face == "both") {
      return {0, 1};
    }
    return {step.face == "front" ? 1 : 0};
  }

  /// The coats that the schedule asks for, in turn, on each face.
  [[nodiscard]] std::vector<const ScheduleStep*> scheduled_coats() const {
    std::vector<const ScheduleStep*> coats;
    for (const ScheduleStep& step : request_.piece.schedule->steps) {
      if (step.kind == ScheduleStepKind::kCoat) {
        coats.insert(coats.end(), static_cast<std::size_t>(step.coats), &step);
      }
    }
    return coats;
  }

  void find_coats() {
    const auto scheduled = scheduled_coats();
    bool abraded = false;
    for (const PlanStep& step : plan_.steps) {
      if (step.kind == StepKind::kAbrade) {
        abraded = true;
      }
      if (step.kind == StepKind::kApply) {
        const bool section = !coats_.empty() && coats_.back().number == step.coat &&
                             coats_.back().faces == faces_of(step);
        if (!section) {
          if (step.coat < 1 || step.coat > static_cast<int>(scheduled.size())) {
            step_fault(step, "the schedule has no such coat");
            continue;
          }
          const ScheduleStep& asked = *scheduled[static_cast<std::size_t>(step.coat - 1)];
          SeenCoat coat;
          coat.product = *book_.product(step.product);
          coat.number = step.coat;
          coat.faces = faces_of(step);
          coat.begun = step.start;
          coat.gate = gate_of(*coat.product);
          coat.abraded_first = abraded;
          if (asked.product != step.product) {
            step_fault(step, "the schedule asks for " + asked.product);
          }
          const auto& reference = coat.product->film.reference_wet;
          if (asked.wet_film && reference) {
            coat.film_ratio = asked.wet_film->micrometres() / reference->value.micrometres();
          }
          coats_.push_back(coat);
        }
        abraded = false;
      }
      if (step.kind == StepKind::kApply || step.kind == StepKind::kWipe) {
        coats_.back().ended = step.end;
        coats_.back().last_step = step.id;
      }
    }
  }

  /// The coat that lies on top of a face at a moment.
  [[nodiscard]] const SeenCoat* top(int face, Time at) const {
    const SeenCoat* found = nullptr;
    for (const SeenCoat& coat : coats_) {
      if (coat.faces.contains(face) && coat.ended <= at) {
        found = &coat;
      }
    }
    return found;
  }

  [[nodiscard]] double quantile_of(const Phase& phase, double film_ratio) const {
    return quantile(
               phase.duration.low().hours(), phase.duration.high().hours(), request_.confidence) *
           std::pow(film_ratio, phase.film_exponent);
  }

  /// When a coat comes to a stage by our own integral.
  std::optional<Time> reached_by(const SeenCoat& coat, const StageTiming& timing, Time latest) {
    Time at = coat.ended;
    for (const Phase& phase : timing.phases) {
      const auto next =
          walk_.reached(phase.law, coat.gate, at, quantile_of(phase, coat.film_ratio), latest);
      if (!next) {
        return std::nullopt;
      }
      at = *next;
    }
    return at;
  }

  void check_hours() {
    Time free = request_.from;
    for (const PlanStep& step : plan_.steps) {
      if (step.end < step.start) {
        step_fault(step, "ends before it begins");
      }
      if (!step.attended) {
        continue;
      }
      bool inside = false;
      for (const Interval& opening : request_.hours) {
        inside = inside || (step.start >= opening.start && step.end <= opening.end);
      }
      if (!inside) {
        step_fault(step, "lies in no opening of the shop");
      }
      if (step.start < free) {
        step_fault(step, "begins before the maker is free");
      }
      free = std::max(free, step.end);
    }
  }

  void check_limits(const SeenCoat& coat) {
    const Limits& limits = coat.product->limits;
    Time until = coat.ended;
    if (const DryingStage* critical = coat.product->stage(limits.critical_stage)) {
      const auto at = reached_by(coat, critical->timing, request_.horizon);
      if (!at) {
        fault("coat {} never comes to its critical stage", coat.number);
      }
      until = at.value_or(coat.ended + std::chrono::hours(24));
    }
    for (Time at = coat.begun; at <= until; at += minutes(5)) {
      const Walk::Air air = walk_.at(at);
      const auto below = [&](const auto& limit) {
        return limit && air.kelvin < limit->value.kelvin() - 0.02;
      };
      if (below(limits.temperature_min) || below(limits.film_formation_min)) {
        fault("coat {} ({}), put on at {}, is wet at {} in air of {:.2f} C",
              coat.number,
              coat.product->name,
              show_utc(coat.begun),
              show_utc(at),
              air.kelvin - 273.15);
        break;
      }
      if (limits.humidity_max && air.humidity > limits.humidity_max->value.fraction() + 0.001) {
        fault("coat {} ({}), put on at {}, is wet at {} in air of {:.1f} % RH",
              coat.number,
              coat.product->name,
              show_utc(coat.begun),
              show_utc(at),
              air.humidity * 100.0);
        break;
      }
    }
  }

  /// Opening and closing of the window of the coats beneath.
  void check_window(const SeenCoat& coat) {
    for (const int face : coat.faces) {
      const SeenCoat* under = top(face, coat.begun);
      if ((under == nullptr) != (coat.number == 1)) {
        fault("coat {} on face {} does not follow coat {}", coat.number, face, coat.number - 1);
      }
      if (under == nullptr) {
        continue;
      }
      const auto rule = book_.pair(*under->product, *coat.product);
      if (!rule) {
        fault("nothing is known of coat {} over the one beneath", coat.number);
        continue;
      }
      bool some_interval = false;
      std::string why;
      for (const RecoatInterval& interval : rule->intervals) {
        const bool usable = coat.abraded_first ? interval.condition != RecoatCondition::kNever
                                               : interval.condition == RecoatCondition::kNone;
        some_interval = some_interval || (usable && keeps(coat, *under, interval, why));
      }
      if (!some_interval) {
        fault("coat {} on face {} at {} lies in no recoat interval:{}",
              coat.number,
              face,
              show_utc(coat.begun),
              why);
      }
    }
  }

  bool keeps(const SeenCoat& coat,
             const SeenCoat& under,
             const RecoatInterval& interval,
             std::string& why) {
    const auto opens = reached_by(under, interval.opens, request_.horizon);
    if (!opens || coat.begun + kTimeSlack < *opens) {
      why += fmt::format(" opens {};", opens ? show_utc(*opens) : "never");
      return false;
    }
    if (!interval.closes || coat.abraded_first) {
      return true;
    }
    const Phase& phase = interval.closes->phases.back();
    const double hours = quantile(
        phase.duration.low().hours(), phase.duration.high().hours(), 1.0 - request_.confidence);
    const Time by_label = under.begun + seconds(std::llround(hours * 3600.0));
    const Time by_clock =
        walk_.reached(phase.law, std::nullopt, under.begun, hours, by_label).value_or(by_label);
    why += fmt::format(" closes {};", show_utc(by_clock));
    return coat.ended <= by_clock + kTimeSlack;
  }

  void check_wait(const PlanStep& step, const Wait& wait) {
    if (wait.stage == "wipe-off") {
      return;  // check_wiping() reckons with the minutes of each spot
    }
    Time opens = wait.since;
    double needed = 0.0;
    double earned = 0.0;
    bool open = true;
    for (std::size_t i = 0; i < wait.phases.size(); ++i) {
      const WaitPhase& phase = wait.phases[i];
      const std::optional<double> gate =
          wait.gate ? std::optional(wait.gate->kelvin()) : std::nullopt;
      const double hours = quantile(phase.low.hours(), phase.high.hours(), request_.confidence);
      needed += hours;
      const double so_far = walk_.earned(phase.law, gate, opens, step.start);
      earned += i + 1 == wait.phases.size() ? so_far : std::min(so_far, hours);
      const auto next = walk_.reached(phase.law, gate, opens, hours, request_.horizon);
      open = open && next.has_value();
      opens = next.value_or(request_.horizon);
    }
    const double slack = std::max(kHoursSlack, 1e-3 * earned);
    if (std::abs(needed - wait.needed.hours()) > 1e-6 * needed) {
      step_fault(step, fmt::format("needs {} h, not {} h", needed, wait.needed.hours()));
    }
    if (std::abs(earned - wait.earned.hours()) > slack) {
      step_fault(step, fmt::format("earned {} h, not {} h", earned, wait.earned.hours()));
    }
    if (earned < needed - slack) {
      step_fault(step, fmt::format("has {} h of the {} h to {}", earned, needed, wait.stage));
    }
    if (!open || std::chrono::abs(opens - wait.opens_at) > kTimeSlack) {
      step_fault(
          step,
          fmt::format("{} opens {}, not {}", wait.stage, show_utc(opens), show_utc(wait.opens_at)));
    }
    if (wait.stage != "dry") {
      check_origin(step, wait);
    }
  }

  /// The wait runs from the end of the coat that it names, with that product's gate.
  void check_origin(const PlanStep& step, const Wait& wait) {
    for (const SeenCoat& coat : coats_) {
      if (coat.last_step == wait.step) {
        if (coat.ended != wait.since) {
          step_fault(step, "its clock does not run from the coat's end");
        }
        const auto gate = wait.gate ? std::optional(wait.gate->kelvin()) : std::nullopt;
        if (gate != coat.gate) {
          step_fault(step, "its clock has not the product's minimum temperature");
        }
        return;
      }
    }
    step_fault(step, fmt::format("waits for step {}, which ends no coat", wait.step));
  }

  /// What every film must have come to before a step.
  void check_films(const PlanStep& step) {
    const bool dusty = step.kind == StepKind::kSand || step.kind == StepKind::kAbrade;
    if (!dusty && step.kind != StepKind::kFlip) {
      return;
    }
    const auto need = [&](const SeenCoat* coat, Stage stage) {
      const DryingStage* drying = coat == nullptr ? nullptr : coat->product->stage(stage);
      if (drying == nullptr) {
        return;
      }
      const auto at = reached_by(*coat, drying->timing, request_.horizon);
      if (!at || step.start + kTimeSlack < *at) {
        step_fault(step, fmt::format("coat {} is not yet {}", coat->number, name_of(stage)));
      }
    };
    for (const int face : {0, 1}) {
      need(top(face, step.start), dusty ? Stage::kDustFree : Stage::kHandle);
    }
    if (step.kind == StepKind::kAbrade) {
      for (const int face : faces_of(step)) {
        if (top(face, step.start) == nullptr) {
          step_fault(step, "abrades bare wood");
        }
        need(top(face, step.start), Stage::kSandable);
      }
    }
  }

  void check_wiping();
  void check_settling();
  void check_faces();
  void check_ends();
  void check_milestones();
  void check_quantities();

  const Plan& plan_;
  const PlanRequest& request_;
  const RecipeBook& book_;
  Walk walk_;
  std::vector<SeenCoat> coats_;
  std::vector<std::string> faults_;
};

}  // namespace own

#include "plan/plan_checker_whole.h"
