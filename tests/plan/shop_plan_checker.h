#pragma once

#include <map>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "plan/own_drying.h"
#include "plan/plan_checker.h"
#include "plan/planner.h"
#include "plan/preparations.h"
#include "plan/shop_request.h"

/// Checks a whole shop's plan without the code that made it: each part by the checker of one
/// piece's plans, and what the parts share by counting at every moment.
namespace own {

/// Work that no finishing schedule asks for.
inline bool is_build(StepKind kind) {
  switch (kind) {
    case StepKind::kGlue:
    case StepKind::kMask:
    case StepKind::kUnmask:
    case StepKind::kDryFit:
    case StepKind::kAssemble:
    case StepKind::kHardware:
    case StepKind::kFanOff:
    case StepKind::kInspect:
    case StepKind::kDeliver:
      return true;
    default:
      return false;
  }
}

class ShopPlanChecker {
 public:
  ShopPlanChecker(const Plan& plan,
                  const ShopRequest& request,
                  const RecipeBook& book,
                  const AirRecord& air)
      : plan_(plan), request_(request), book_(book) {
    Time first = request.from;
    for (const JobRequest& job : request.jobs) {
      for (const PartRequest& part : job.parts) {
        PlanRequest one;
        one.piece = part.finish;
        one.from = request.from;
        first = std::min(first, PlanChecker::first_moment(one));
      }
      for (const BuildWork& work : job.build) {
        first = std::min(first, work.done_at.value_or(first));
      }
    }
    walk_ = std::make_shared<Walk>(air, first);
    air_ = &air;
  }

  /// @return a sentence for each thing that is wrong.
  std::vector<std::string> faults() {
    for (const JobRequest& job : request_.jobs) {
      for (const PartRequest& part : job.parts) {
        check_part(job, part);
      }
    }
    for (const JobRequest& job : request_.jobs) {
      check_builds(job);
    }
    check_people();
    check_places();
    check_rack();
    check_dust();
    check_ends();
    check_ids();
    return std::move(faults_);
  }

 private:
  using Use = std::pair<Interval, int>;

  template <class... Args>
  void fault(fmt::format_string<Args...> text, Args&&... args) {
    faults_.push_back(fmt::format(text, std::forward<Args>(args)...));
  }

  [[nodiscard]] static std::string in_words(const PlanStep& step) {
    return fmt::format("step {} ({} {} {} of coat {}, {})",
                       step.id,
                       step.piece,
                       step.part,
                       name_of(step.kind),
                       step.coat,
                       show_utc(step.start));
  }

  [[nodiscard]] std::vector<Interval> openings() const {
    std::vector<Interval> openings;
    for (const StaffedHours& hours : request_.hours) {
      if (!openings.empty() && openings.back().end == hours.open.start) {
        openings.back().end = hours.open.end;
      } else {
        openings.push_back(hours.open);
      }
    }
    return openings;
  }

  [[nodiscard]] PlanRequest request_of(const JobRequest& job, const PartRequest& part) const {
    PlanRequest request;
    request.piece = part.finish;
    request.made_at = request_.made_at;
    request.from = request_.from;
    request.by = job.due.value_or(request_.horizon);
    request.confidence = request_.confidence;
    request.hours = openings();
    request.horizon = request_.horizon;
    return request;
  }

  /// A part's finishing as if it were a plan of its own; what speaks of the whole is filled in.
  [[nodiscard]] Plan slice_of(const JobRequest& job, const PartRequest& part) const {
    Plan slice;
    slice.from = plan_.from;
    slice.by = job.due.value_or(request_.horizon);
    slice.complete = plan_.complete;
    slice.hours = plan_.hours;
    std::map<int, int> ids;
    Time attended = Time::min();
    for (const PlanStep& step : plan_.steps) {
      const bool is_own = step.piece == job.name && step.part == part.name && !is_build(job, step);
      attended = is_own && step.attended ? std::max(attended, step.end) : attended;
    }
    for (const PlanStep& step : plan_.steps) {
      // What lies on the rack at the end is no work of one piece's plan.
      const bool is_last_drying = step.kind == StepKind::kWait && step.start >= attended;
      if (step.piece == job.name && step.part == part.name && !is_build(job, step) &&
          !is_clamps(step) && !is_last_drying) {
        slice.steps.push_back(step);
        ids[step.id] = static_cast<int>(ids.size()) + 1;
      }
    }
    for (PlanStep& step : slice.steps) {
      step.id = ids[step.id];
      std::erase_if(step.after, [](const Wait& wait) {
        return wait.stage == "clamps-off" || wait.stage == "surfacing";
      });
      for (Wait& wait : step.after) {
        wait.step = ids[wait.step];
      }
    }
    Time last = part.finish.log.empty() ? request_.from : part.finish.log.back().at;
    for (const PlanStep& step : slice.steps) {
      last = step.done ? last : std::max({last, request_.from, step.end});
    }
    slice.finish = plan_.complete ? std::optional(last) : std::nullopt;
    slice.fits = slice.finish && *slice.finish <= slice.by;
    slice.chance = slice.fits ? 1.0 : 0.0;
    for (const Milestone& milestone : plan_.milestones) {
      if (milestone.piece == job.name && milestone.part == part.name) {
        slice.milestones.push_back(milestone);
      }
    }
    return slice;
  }

  [[nodiscard]] static bool is_clamps(const PlanStep& step) {
    return step.kind == StepKind::kWait && step.benches > 0;
  }

  void check_part(const JobRequest& job, const PartRequest& part) {
    Plan slice = slice_of(job, part);
    const PlanRequest request = request_of(job, part);
    // What is to be bought and begun before is said once for all parts: taken from their own plan.
    const auto alone = make_plan(request, book_, *air_);
    slice.quantities = alone->quantities;
    if (const auto preparations = preparations_of(slice, book_)) {
      slice.preparations = *preparations;
    }
    for (const PlannedQuantity& quantity : alone->quantities) {
      litres_[quantity.product] += quantity.amount.litres();
    }
    for (const std::string& text : PlanChecker(slice, request, book_, walk_).faults()) {
      fault("{} {}: {}", job.name, part.name, text);
    }
  }

  // --- What is put together.

  [[nodiscard]] static bool is_of(const PlanStep& step,
                                  const JobRequest& job,
                                  const BuildWork& work) {
    return step.piece == job.name && step.kind == work.kind &&
           std::find(step.notes.begin(), step.notes.end(), work.name) != step.notes.end();
  }

  /// Work of no finishing schedule, also sanding that the piece's own file asks for.
  [[nodiscard]] static bool is_build(const JobRequest& job, const PlanStep& step) {
    return own::is_build(step.kind) ||
           std::any_of(job.build.begin(), job.build.end(), [&](const BuildWork& work) {
             return is_of(step, job, work);
           });
  }

  void check_builds(const JobRequest& job) {
    std::vector<Time> free(job.parts.size(), job.earliest.value_or(request_.from));
    lines_.assign(job.parts.size(), request_.from - std::chrono::hours(24));
    for (const BuildWork& work : job.build) {
      if (work.done_at) {
        check_done(job, work, free);
      }
    }
    for (const bool before : {true, false}) {
      if (!before) {
        pass_finishing(job, free);
      }
      for (const BuildWork& work : job.build) {
        if (work.before_finish == before && !work.done_at) {
          check_build(job, work, free);
        }
      }
    }
  }

  /// What was glued up before the plan keeps its bench, and its parts, until its clamps come off.
  void check_done(const JobRequest& job, const BuildWork& work, std::vector<Time>& free) {
    const auto step = std::find_if(plan_.steps.begin(), plan_.steps.end(), [&](const auto& one) {
      return is_of(one, job, work) && one.done;
    });
    if (step == plan_.steps.end() || step->start != *work.done_at) {
      fault("{}: {} is not said to be done", job.name, work.name);
      return;
    }
    if (work.glue == nullptr) {
      return;
    }
    const double hours =
        quantile(work.glue->clamp_low.hours(), work.glue->clamp_high.hours(), request_.confidence);
    const auto off = walk_->reached(
        work.glue->law, work.glue->at_least.kelvin(), *work.done_at, hours, request_.horizon);
    for (const int part : work.parts) {
      Time& since = free[static_cast<std::size_t>(part)];
      since = std::max(since, off.value_or(request_.horizon) - seconds(90));
      if (work.glue->surface_after) {
        Time& line = lines_[static_cast<std::size_t>(part)];
        line = std::max(line, line_dry(*step, *work.glue));
      }
    }
    if (work.at_bench && off && *off > request_.from + seconds(60)) {
      benches_.push_back({{request_.from, *off - seconds(60)}, 1});
    }
  }

  void pass_finishing(const JobRequest& job, std::vector<Time>& free) {
    for (std::size_t i = 0; i < job.parts.size(); ++i) {
      bool first = true;
      for (const PlanStep& step : plan_.steps) {
        if (step.piece != job.name || step.part != job.parts[i].name || is_build(job, step) ||
            step.done || !step.attended) {
          continue;
        }
        if (step.kind == StepKind::kSand) {
          check_line(step, i);
        }
        if (first && step.start < free[i]) {
          fault("{}: begins before what comes before it is done", in_words(step));
        }
        first = false;
        free[i] = std::max(free[i], step.end);
      }
    }
  }

  void check_build(const JobRequest& job, const BuildWork& work, std::vector<Time>& free) {
    const auto step = std::find_if(plan_.steps.begin(), plan_.steps.end(), [&](const auto& one) {
      return is_of(one, job, work);
    });
    if (step == plan_.steps.end()) {
      if (plan_.complete) {
        fault("{}: {} is not planned", job.name, work.name);
      }
      return;
    }
    const double minutes_taken = static_cast<double>((step->end - step->start).count()) / 60.0;
    if (minutes_taken < work.work.minutes() - 1e-6 || minutes_taken > work.work.minutes() + 1.0) {
      fault("{}: takes {} min", in_words(*step), minutes_taken);
    }
    if (!lies_in_hours(*step)) {
      fault("{}: lies in no opening of the shop", in_words(*step));
    }
    Time off = step->end;
    if (work.glue != nullptr) {
      off = check_glue(*step, *work.glue);
    }
    for (const int part : work.parts) {
      if (work.kind == StepKind::kSand) {
        check_line(*step, static_cast<std::size_t>(part));
      }
      if (work.glue != nullptr && work.glue->surface_after) {
        Time& line = lines_[static_cast<std::size_t>(part)];
        line = std::max(line, line_dry(*step, *work.glue));
      }
      Time& since = free[static_cast<std::size_t>(part)];
      if (step->start < since) {
        fault("{}: begins before {}", in_words(*step), show_utc(since));
      }
      since = off;
      if (!work.before_finish) {
        check_films(job, job.parts[static_cast<std::size_t>(part)], work.needs, *step);
      }
    }
    if (work.kind == StepKind::kDeliver) {
      for (const PlanStep& other : plan_.steps) {
        if (other.piece == job.name && other.attended && other.end > step->start &&
            &other != &*step) {
          fault("{}: something is done on it after", in_words(*step));
        }
      }
    }
  }

  [[nodiscard]] bool lies_in_hours(const PlanStep& step) const {
    const auto open = openings();
    return std::any_of(open.begin(), open.end(), [&](const Interval& one) {
      return step.start >= one.start && step.end <= one.end;
    });
  }

  /// @return when the clamps come off, by our own integral.
  Time check_glue(const PlanStep& step, const Glue& glue) {
    const double hours =
        quantile(glue.clamp_low.hours(), glue.clamp_high.hours(), request_.confidence);
    const auto off =
        walk_->reached(glue.law, glue.at_least.kelvin(), step.end, hours, request_.horizon);
    if (!off) {
      fault("{}: never sets", in_words(step));
      return step.end;
    }
    for (Time at = step.start; at <= *off; at += minutes(5)) {
      const double kelvin = walk_->at(at).kelvin;
      if (kelvin < glue.at_least.kelvin() - 0.02 || kelvin > glue.at_most.kelvin() + 0.02) {
        fault("{}: sets in air of {:.1f} C at {}", in_words(step), kelvin - 273.15, show_utc(at));
        break;
      }
    }
    const double open = glue.open_low.hours();
    const Time label = step.start + seconds(std::llround(open * 3600.0));
    const Time shut =
        walk_->reached(glue.law, std::nullopt, step.start, open, label).value_or(label);
    if (step.end > shut && step.end <= label) {
      fault("{}: not closed by {}", in_words(step), show_utc(shut));
    }
    if (step.benches > 0) {
      benches_.push_back({{step.end, *off - seconds(60)}, 1});
    }
    return *off - seconds(90);  // reckoned to the minute
  }

  /// @return when a glue line has lost its water, by our own integral.
  Time line_dry(const PlanStep& step, const Glue& glue) {
    const auto dry = walk_->reached(
        glue.law, glue.at_least.kelvin(), step.end, glue.surface_after->hours(), request_.horizon);
    return dry.value_or(request_.horizon);
  }

  void check_line(const PlanStep& step, std::size_t part) {
    if (step.start < lines_[part] - seconds(90)) {
      fault("{}: sands a glue line that is wet until {}", in_words(step), show_utc(lines_[part]));
    }
  }

  // --- Films.

  /// A coat by the steps, with what our integral needs.
  struct Film {
    const JobRequest* job;
    const PartRequest* part;
    SeenCoat coat;
    int session_end_step = 0;
  };

  /// The coats that are still to be put on, by part in order.
  const std::vector<Film>& films() {
    if (!films_) {
      films_.emplace();
      for (const JobRequest& job : request_.jobs) {
        for (const PartRequest& part : job.parts) {
          find_films(job, part);
        }
      }
    }
    return *films_;
  }

  void find_films(const JobRequest& job, const PartRequest& part) {
    const auto scheduled = coats_of(*part.finish.schedule);
    Film* last = nullptr;
    for (const PlanStep& step : plan_.steps) {
      if (step.piece != job.name || step.part != part.name || step.done) {
        continue;
      }
      const std::set<int> faces = step.face == "both"    ? std::set<int>{0, 1}
                                  : step.face == "front" ? std::set<int>{1}
                                                         : std::set<int>{0};
      if (step.kind == StepKind::kApply) {
        const bool section =
            last != nullptr && last->coat.number == step.coat && last->coat.faces == faces;
        if (!section) {
          Film film{&job, &part, {}, 0};
          film.coat.product = *book_.product(step.product);
          film.coat.number = step.coat;
          film.coat.faces = faces;
          film.coat.begun = step.start;
          film.coat.gate = gate_of(*film.coat.product);
          film.coat.film_ratio =
              film_ratio(*scheduled[static_cast<std::size_t>(step.coat - 1)], *film.coat.product);
          films_->push_back(film);
          last = &films_->back();
        }
      }
      if (last != nullptr && (step.kind == StepKind::kApply || step.kind == StepKind::kWipe)) {
        last->coat.ended = step.end;
      }
    }
  }

  std::optional<Time> reached_by(const SeenCoat& coat, Stage stage) {
    const DryingStage* drying = coat.product->stage(stage);
    if (drying == nullptr) {
      return coat.ended;
    }
    Time at = coat.ended;
    for (const Phase& phase : drying->timing.phases) {
      const double hours =
          quantile(
              phase.duration.low().hours(), phase.duration.high().hours(), request_.confidence) *
          std::pow(coat.film_ratio, phase.film_exponent);
      const auto next = walk_->reached(phase.law, coat.gate, at, hours, request_.horizon);
      if (!next) {
        return std::nullopt;
      }
      at = *next;
    }
    return at;
  }

  void check_films(const JobRequest& job,
                   const PartRequest& part,
                   Stage needs,
                   const PlanStep& step) {
    std::map<int, const Film*> on_face;
    for (const Film& film : films()) {
      if (film.job == &job && film.part == &part) {
        for (const int face : film.coat.faces) {
          on_face[face] = &film;
        }
      }
    }
    for (const auto& [face, film] : on_face) {
      const auto at = reached_by(film->coat, needs);
      if (!at || step.start + minutes(2) < *at) {
        fault("{}: face {} of {} is {} only at {}",
              in_words(step),
              face,
              part.name,
              name_of(needs),
              at ? show_utc(*at) : "no time");
      }
    }
  }

  // --- What is shared.

  /// The most that is taken at once, at the beginnings and ends of all spans.
  void check_count(const std::vector<Use>& uses, const std::string& what, auto capacity_at) {
    for (const Use& one : uses) {
      int taken = 0;
      for (const Use& other : uses) {
        if (other.first.start <= one.first.start && one.first.start < other.first.end) {
          taken += other.second;
        }
      }
      if (taken > capacity_at(one.first.start)) {
        fault("at {} {} {} are taken, and there are {}",
              show_utc(one.first.start),
              taken,
              what,
              capacity_at(one.first.start));
      }
    }
  }

  void check_people() {
    std::vector<Use> uses;
    for (const PlanStep& step : plan_.steps) {
      if (!step.done && step.attended) {
        uses.push_back({{step.start, step.end}, step.people});
        // Where fewer people come later, the work that runs on counts then.
        for (const StaffedHours& hours : request_.hours) {
          if (hours.open.start > step.start && hours.open.start < step.end) {
            uses.push_back({{hours.open.start, hours.open.start + seconds(1)}, 0});
          }
        }
      }
    }
    check_count(uses, "people", [this](Time at) {
      int people = 0;
      for (const StaffedHours& hours : request_.hours) {
        people += hours.open.start <= at && at < hours.open.end ? hours.people : 0;
      }
      return people;
    });
  }

  void check_places() {
    const ShopResources& has = request_.resources;
    std::vector<Use> spray;
    for (const PlanStep& step : plan_.steps) {
      if (step.done) {
        continue;
      }
      spray.push_back({{step.start, step.end}, step.spray_places});
      benches_.push_back({{step.start, step.end}, is_clamps(step) ? 0 : step.benches});
      const bool sprays = step.kind == StepKind::kApply && step.method == "spray";
      if (sprays != (step.spray_places > 0) && step.kind == StepKind::kApply) {
        fault("{}: has {} spray places", in_words(step), step.spray_places);
      }
    }
    if (has.spray_places) {
      check_count(spray, "spray places", [&](Time) { return *has.spray_places; });
    }
    if (has.benches) {
      check_count(benches_, "benches", [&](Time) { return *has.benches; });
    }
  }

  /// From the end of a coat's session until the part's next attended step, and after its last until
  /// it may be handled.
  void check_rack() {
    if (!request_.resources.rack_places) {
      return;
    }
    std::vector<Use> uses;
    for (const Film& film : films()) {
      std::optional<Time> next;
      for (const PlanStep& step : plan_.steps) {
        const bool own = step.piece == film.job->name && step.part == film.part->name;
        if (own && step.attended && !is_build(*film.job, step) &&
            step.start > film.coat.ended + minutes(60)) {
          next = std::min(next.value_or(step.start), step.start);
        }
      }
      const auto handle = reached_by(film.coat, Stage::kHandle);
      const Time until = next.value_or(handle.value_or(request_.horizon) - seconds(90));
      const Time from = film.coat.ended + minutes(60);  // cleaning up is done before
      if (from < until) {
        uses.push_back({{from, until}, film.part->rack_places});
      }
    }
    check_count(
        uses, "places on the rack", [this](Time) { return *request_.resources.rack_places; });
  }

  void check_dust() {
    if (request_.resources.finishing_apart) {
      return;
    }
    for (const PlanStep& step : plan_.steps) {
      if (step.done || (step.kind != StepKind::kSand && step.kind != StepKind::kAbrade)) {
        continue;
      }
      for (const Film& film : films()) {
        const auto dust_free = reached_by(film.coat, Stage::kDustFree);
        const bool before = film.coat.begun >= step.end + minutes(15);
        const bool after = dust_free && step.start + minutes(2) >= *dust_free;
        if (!before && !after) {
          fault("{}: makes dust while coat {} of {} {}, put on at {}, is wet until {}",
                in_words(step),
                film.coat.number,
                film.job->name,
                film.part->name,
                show_utc(film.coat.begun),
                dust_free ? show_utc(*dust_free) : "the end");
        }
      }
    }
  }

  void check_ends() {
    bool all_in_time = plan_.complete;
    std::optional<Time> last;
    for (std::size_t i = 0; i < request_.jobs.size(); ++i) {
      const JobRequest& job = request_.jobs[i];
      const PlanPiece& piece = plan_.pieces.at(i);
      Time end = Time::min();
      for (const PlanStep& step : plan_.steps) {
        if (step.piece == job.name && step.attended) {
          end = std::max(end, step.end);
        }
      }
      if (plan_.complete && piece.finish != end) {
        fault("{} ends at {}", job.name, show_utc(end));
      }
      const auto late = piece.finish && job.due ? *piece.finish - *job.due : seconds(0);
      if (piece.finish && piece.late != std::max(seconds(0), seconds(late))) {
        fault("{} is {} s late", job.name, seconds(late).count());
      }
      all_in_time = all_in_time && piece.late == seconds(0);
      last = std::max(last.value_or(end), end);
    }
    if (plan_.fits != all_in_time) {
      fault("says wrongly whether it fits");
    }
    if (plan_.complete && plan_.finish != last) {
      fault("ends at another time than its last step");
    }
    if (plan_.finish && plan_.bound && *plan_.bound > *plan_.finish) {
      fault("ends before its bound");
    }
    for (const PlannedQuantity& quantity : plan_.quantities) {
      if (std::abs(quantity.amount.litres() - litres_[quantity.product]) > 1e-9) {
        fault("{} l of {} are not the sum over the parts",
              quantity.amount.litres(),
              quantity.product);
      }
    }
  }

  void check_ids() {
    Time before = Time::min();
    bool open = false;
    for (std::size_t i = 0; i < plan_.steps.size(); ++i) {
      const PlanStep& step = plan_.steps[i];
      if (step.id != static_cast<int>(i) + 1) {
        fault("{}: is not step {}", in_words(step), i + 1);
      }
      if (!step.done && !open) {
        before = Time::min();
        open = true;
      }
      if (step.start < before) {
        fault("{}: stands after a later one", in_words(step));
      }
      before = step.start;
      for (const Wait& wait : step.after) {
        if (wait.step < 1 || wait.step > static_cast<int>(plan_.steps.size())) {
          fault("{}: waits for step {}, which is not there", in_words(step), wait.step);
        }
      }
    }
  }

  const Plan& plan_;
  const ShopRequest& request_;
  const RecipeBook& book_;
  const AirRecord* air_ = nullptr;
  std::shared_ptr<Walk> walk_;
  std::optional<std::vector<Film>> films_;
  std::vector<Use> benches_;
  std::vector<Time> lines_;  ///< By part of the piece at hand: its glue lines are dry from then on.
  std::map<std::string, double> litres_;
  std::vector<std::string> faults_;
};

}  // namespace own
