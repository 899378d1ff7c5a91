#pragma once

#include <memory>
#include <set>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "plan/own_drying.h"
#include "plan/own_log.h"
#include "plan/plan.h"
#include "plan/planner.h"
#include "recipe/recipe_book.h"

/// Checks a finished plan against its request, the air and the recipes, without the planner's code:
/// what a plan must keep is written down here once more. Of what the log has as done nothing is
/// asked; what follows must rest on it.
namespace own {

using namespace coatwright;
using std::chrono::minutes;
using std::chrono::seconds;

class PlanChecker {
 public:
  PlanChecker(const Plan& plan,
              const PlanRequest& request,
              const RecipeBook& book,
              const AirRecord& air)
      : PlanChecker(plan, request, book, std::make_shared<Walk>(air, first_moment(request))) {}

  /// @param walk over the plan's air, from the first moment or sooner; it keeps its sums.
  PlanChecker(const Plan& plan,
              const PlanRequest& request,
              const RecipeBook& book,
              std::shared_ptr<Walk> walk)
      : plan_(plan),
        request_(request),
        book_(book),
        log_(request.piece),
        shared_walk_(std::move(walk)),
        walk_(*shared_walk_) {
    find_logged_coats();
    find_coats();
  }

  /// The first moment that the log or the plan speaks of.
  static Time first_moment(const PlanRequest& request) {
    return request.piece.log.empty() ? request.from
                                     : std::min(request.from, request.piece.log.front().at);
  }

  /// @return a sentence for each thing that is wrong.
  std::vector<std::string> faults() {
    check_log();
    check_hours();
    for (const SeenCoat& coat : coats_) {
      if (!coat.logged) {
        check_limits(coat);
        check_window(coat);
      }
    }
    for (const PlanStep& step : plan_.steps) {
      if (step.done) {
        continue;
      }
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
    check_mixing();
    check_washing();
    check_rub_out();
    check_order();
    check_preparations();
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

  [[nodiscard]] const std::vector<const ScheduleStep*>& scheduled_coats() const {
    return log_.scheduled;
  }

  /// The first step that is still to be done; past the last when there is none.
  [[nodiscard]] std::size_t first_open() const {
    const auto found = std::find_if(
        plan_.steps.begin(), plan_.steps.end(), [](const PlanStep& step) { return !step.done; });
    return static_cast<std::size_t>(found - plan_.steps.begin());
  }

  /// Until when a logged coat may be wiped by its label.
  static Time wipe_closes(const SeenCoat& coat) {
    return coat.begun + seconds(std::llround(coat.product->wipe_off->closes.hours() * 3600.0));
  }
  /// Its wiping is still to be done at the plan's start.
  [[nodiscard]] bool is_wiping_open(const SeenCoat& coat) const {
    return coat.logged && coat.to_wipe && log_.top(*coat.faces.begin())->begun == coat.begun &&
           request_.from < wipe_closes(coat);
  }
  [[nodiscard]] bool is_some_wiping_open() const {
    return std::any_of(log_.coats.begin(), log_.coats.end(), [this](const SeenCoat& coat) {
      return is_wiping_open(coat);
    });
  }
  /// The step that the log left open and that waits for no hours: the wiping, or the rags.
  [[nodiscard]] bool is_left_open(const PlanStep& step) const {
    const std::size_t first = first_open();
    const auto place = static_cast<std::size_t>(&step - plan_.steps.data());
    const bool wiping = is_some_wiping_open();
    if (step.kind == StepKind::kWipe) {
      return wiping && place == first;
    }
    return step.kind == StepKind::kRags &&
           (wiping ? place == first + 1 : log_.open_rags != nullptr && place == first);
  }

  /// The log's coats with the moments from which they dry.
  void find_logged_coats() {
    if (request_.piece.over) {
      SeenCoat came_in;
      came_in.product = request_.piece.over->product;
      came_in.begun = came_in.ended = request_.piece.over->since;
      came_in.faces = {0, 1};
      came_in.logged = came_in.came_in = true;
      coats_.push_back(came_in);
    }
    for (SeenCoat coat : log_.coats) {
      const std::size_t first = first_open();
      if (is_wiping_open(coat) && first < plan_.steps.size()) {
        coat.ended = plan_.steps[first].end;
        coat.last_step = plan_.steps[first].id;
      } else if (coat.to_wipe && log_.top(*coat.faces.begin())->begun == coat.begun) {
        coat.ended = wipe_closes(coat);
      }
      const SeenCoat* under = top(*coat.faces.begin(), coat.begun);
      if (under != nullptr && !under->came_in) {
        coat.ended = std::max(coat.ended, ready_for(*under, coat).value_or(coat.ended));
      }
      coats_.push_back(coat);
    }
  }

  /// When a coat can take the next one, in whichever interval opens first.
  std::optional<Time> ready_for(const SeenCoat& under, const SeenCoat& over) {
    const auto rule = book_.pair(*under.product, *over.product);
    std::optional<Time> earliest;
    for (const RecoatInterval& interval : rule ? rule->intervals : std::vector<RecoatInterval>()) {
      if (interval.condition != RecoatCondition::kNever) {
        const Time opens =
            reached_by(under, interval.opens, request_.horizon).value_or(request_.horizon);
        earliest = std::min(earliest.value_or(opens), opens);
      }
    }
    return earliest;
  }

  /// Every face that carries a coat was abraded since; false on bare wood.
  [[nodiscard]] bool is_abraded(const std::set<int>& faces, Time at) const {
    bool coated = false;
    for (const int face : faces) {
      const bool is_bare = top(face, at) == nullptr;
      if (!is_bare && !abraded_[face]) {
        return false;
      }
      coated = coated || !is_bare;
    }
    return coated;
  }

  /// Whatever is sanded over a coat abrades it.
  void abrade(const PlanStep& step) {
    if (step.kind == StepKind::kAbrade && is_abraded(faces_of(step), step.start)) {
      step_fault(step, "it was abraded already");
    }
    for (const int face : faces_of(step)) {
      abraded_[face] = top(face, step.start) != nullptr;
    }
  }

  void find_coats() {
    const auto scheduled = scheduled_coats();
    std::copy(std::begin(log_.abraded), std::end(log_.abraded), std::begin(abraded_));
    for (const PlanStep& step : plan_.steps) {
      if (step.done || is_left_open(step)) {
        continue;
      }
      if (step.kind == StepKind::kAbrade || step.kind == StepKind::kSand) {
        abrade(step);
      }
      if (step.kind == StepKind::kApply) {
        const bool section = !coats_.empty() && !coats_.back().logged &&
                             coats_.back().number == step.coat &&
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
          coat.abraded_first = is_abraded(coat.faces, step.start);
          if (asked.product != step.product) {
            step_fault(step, "the schedule asks for " + asked.product);
          }
          coat.film_ratio = film_ratio(asked, *coat.product);
          coats_.push_back(coat);
        }
        for (const int face : faces_of(step)) {
          abraded_[face] = false;
        }
      }
      if ((step.kind == StepKind::kApply || step.kind == StepKind::kWipe) && !coats_.empty() &&
          !coats_.back().logged) {
        coats_.back().ended = step.end;
        coats_.back().last_step = step.id;
      }
    }
  }

  /// The coat that lies on top of a face at a moment.
  [[nodiscard]] const SeenCoat* top(int face, Time at) const {
    const SeenCoat* found = nullptr;
    for (const SeenCoat& coat : coats_) {
      // A logged coat lies there, however long it is held back.
      if (coat.faces.contains(face) && (coat.logged ? coat.begun : coat.ended) <= at) {
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
    Time free = std::max(request_.from, log_.last_at.value_or(request_.from));
    for (const PlanStep& step : plan_.steps) {
      if (step.done) {
        continue;
      }
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
      if (!inside && !is_left_open(step)) {
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
      // By the log, coats between may be left out; one that the schedule does not have is over all
      // that were done.
      const int below = under == nullptr ? 0 : under->number;
      for (int number = below + 1; number < coat.number; ++number) {
        if (!log_.is_behind(face, number)) {
          fault("coat {} on face {} does not follow coat {}", coat.number, face, coat.number - 1);
        }
      }
      if (below >= coat.number) {
        fault("coat {} on face {} follows coat {}", coat.number, face, below);
      }
      if (under == nullptr) {
        continue;
      }
      const auto rule = book_.pair(*under->product, *coat.product);
      if (!rule) {
        fault("nothing is known of coat {} over the one beneath", coat.number);
        continue;
      }
      if (rule->verdict == PairVerdict::kNever || rule->verdict == PairVerdict::kBarrierFirst) {
        fault("{} must not go over {}", coat.product->name, under->product->name);
      }
      bool some_interval = false;
      std::string why;
      for (const RecoatInterval& interval : rule->intervals) {
        const bool usable = coat.abraded_first ? interval.condition != RecoatCondition::kNever
                                               : interval.condition == RecoatCondition::kNone;
        some_interval = some_interval || (usable && keeps(coat, *under, interval, *rule, why));
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
             const PairRule& rule,
             std::string& why) {
    if (under.came_in) {
      return !interval.closes;  // long dry: only what never closes is left
    }
    const auto opens = reached_by(under, interval.opens, request_.horizon);
    if (!opens || coat.begun + kTimeSlack < *opens) {
      why += fmt::format(" opens {};", opens ? show_utc(*opens) : "never");
      return false;
    }
    // Abrading stands in for a window that has closed, but not for a gap in which the coat lifts.
    const bool has_gap =
        std::any_of(rule.intervals.begin(), rule.intervals.end(), [](const RecoatInterval& one) {
          return one.condition == RecoatCondition::kNever;
        });
    if (!interval.closes || (coat.abraded_first && !has_gap)) {
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
    if (wait.stage == "wipe-off" || wait.stage == "pot life") {
      return;  // check_wiping() and check_mixing() reckon with the minutes
    }
    if (wait.step == 0) {
      step_fault(step, "waits for nothing that was done");
      return;
    }
    Time opens = wait.since;
    double needed = 0.0;
    double earned = 0.0;
    bool open = true;
    for (std::size_t i = 0; i < wait.phases.size(); ++i) {
      const WaitPhase& phase = wait.phases[i];
      const std::optional<double> gate =
          wait.gate ? std::optional(wait.gate->kelvin()) : std::nullopt;
      const double hours =
          quantile(phase.range.low().hours(), phase.range.high().hours(), request_.confidence);
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
    bool named = false;
    for (const SeenCoat& coat : coats_) {
      if (coat.last_step == wait.step) {
        named = true;
        const auto gate = wait.gate ? std::optional(wait.gate->kelvin()) : std::nullopt;
        // What was held back is reckoned to the minute.
        const auto slack = coat.logged ? seconds(kTimeSlack) : seconds(0);
        if (std::chrono::abs(coat.ended - wait.since) <= slack && gate == coat.gate) {
          return;
        }
      }
    }
    if (named) {
      step_fault(step, "its clock does not run from the coat's end, or not with its minimum");
    } else {
      step_fault(step, fmt::format("waits for step {}, which ends no coat", wait.step));
    }
  }

  /// What every film must have come to before a step.
  void check_films(const PlanStep& step) {
    const bool dusty = step.kind == StepKind::kSand || step.kind == StepKind::kAbrade;
    if (!dusty && step.kind != StepKind::kFlip) {
      return;
    }
    const auto need = [&](const SeenCoat* coat, Stage stage) {
      const DryingStage* drying =
          coat == nullptr || coat->came_in ? nullptr : coat->product->stage(stage);
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

  void check_log();
  void check_left_open();
  void check_wiping();
  void check_settling();
  void check_faces();
  void check_ends();
  void check_milestones();
  void check_quantities();
  void check_mixing();
  void check_batches(const std::vector<const PlanStep*>& batches);
  void check_washing();
  void check_rub_out();
  void check_order();
  void check_preparations();
  [[nodiscard]] const PlanStep* step_before(const PlanStep& step) const;
  [[nodiscard]] Time latest_beginning(const Preparation& needed, Time coat) const;

  const Plan& plan_;
  const PlanRequest& request_;
  const RecipeBook& book_;
  OwnLog log_;
  std::shared_ptr<Walk> shared_walk_;
  Walk& walk_;
  std::vector<SeenCoat> coats_;
  bool abraded_[2] = {false, false};  ///< While coats are looked for: since the last coat.
  std::vector<std::string> faults_;
};

}  // namespace own

#include "plan/plan_checker_parts.h"
#include "plan/plan_checker_whole.h"
