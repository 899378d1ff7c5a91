#include "plan/odds.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <random>

#include "drying/coat_progress.h"
#include "plan/opening_hours.h"

namespace coatwright {
namespace {

using std::chrono::seconds;

/// How one trial's coats differ from the middle of their ranges.
class Draw {
 public:
  explicit Draw(unsigned seed) : random_(seed) {}

  void next_trial() {
    shop_ = std::sqrt(kShopShareOfVariance) * deviate();
    openings_.clear();
    closings_.clear();
  }
  /// The deviate of all of a coat's stages.
  double opening(int coat) { return known(openings_, coat); }
  /// That of the window over a coat.
  double closing(int coat) { return known(closings_, coat); }

 private:
  double known(std::map<int, double>& deviates, int coat) {
    const auto found = deviates.find(coat);
    if (found != deviates.end()) {
      return found->second;
    }
    const double own = std::sqrt(1.0 - kShopShareOfVariance) * deviate();
    return deviates.emplace(coat, shop_ + own).first->second;
  }
  /// By inversion, because std::normal_distribution differs between libraries.
  double deviate() {
    constexpr double kTwoTo53 = 9007199254740992.0;
    return normal_deviate((static_cast<double>(random_() >> 11U) + 0.5) / kTwoTo53);
  }

  std::mt19937_64 random_;
  double shop_ = 0.0;
  std::map<int, double> openings_;
  std::map<int, double> closings_;
};

/// A wait whose outcome is uncertain.
struct OpenWait {
  const Wait* wait;
  StageTiming timing;
  std::optional<StageTiming> closing;
  double opening_deviate = 0.0;  ///< At the step's planned start: it holds for deviates up to it.
  std::optional<double> closing_deviate;  ///< It holds for deviates from it on.
};

struct StepWaits {
  const PlanStep* step;
  std::vector<OpenWait> waits;
};

/// Steps that follow each other without a gap: they are put off together.
struct Stretch {
  std::vector<const StepWaits*> waiting;
  Time start;
  Time end;
};

StageTiming timing_of(const std::vector<WaitPhase>& phases) {
  StageTiming timing;
  for (const WaitPhase& phase : phases) {
    timing.phases.push_back({phase.law, DurationRange(phase.low, phase.high), 0.0});
  }
  return timing;
}

bool is_uncertain(const Wait& wait) {
  return std::any_of(wait.phases.begin(), wait.phases.end(), [](const WaitPhase& phase) {
    return phase.low.hours() < phase.high.hours();
  });
}

/// Plays one plan.
class Play {
 public:
  Play(const Plan& plan, const AirRecord& air)
      : plan_(plan), clocks_(air, first_moment(plan)), hours_(plan.hours) {
    for (const PlanStep& step : plan.steps) {
      if (!step.done && step.attended) {
        steps_.push_back({&step, waits_of(step)});
      }
    }
    std::stable_sort(steps_.begin(), steps_.end(), [](const StepWaits& a, const StepWaits& b) {
      return a.step->start < b.step->start;
    });
    join_stretches();
  }

  PlanOdds run(int trials, unsigned seed) {
    Draw draw(seed);
    std::vector<int> held(steps_.size(), 0);
    int all_held = 0;
    int in_time = 0;
    for (int i = 0; i < trials; ++i) {
      draw.next_trial();
      all_held += count_held(draw, held) ? 1 : 0;
      in_time += ends_in_time(draw) ? 1 : 0;
    }
    PlanOdds odds;
    odds.trials = trials;
    odds.seed = seed;
    odds.half_width = normal_deviate(0.975) * std::sqrt(0.25 / trials);
    for (std::size_t i = 0; i < steps_.size(); ++i) {
      if (!steps_[i].waits.empty()) {
        odds.steps.push_back({steps_[i].step->id, static_cast<double>(held[i]) / trials});
      }
    }
    odds.as_printed = static_cast<double>(all_held) / trials;
    odds.by_date = static_cast<double>(in_time) / trials;
    return odds;
  }

 private:
  static Time first_moment(const Plan& plan) {
    Time first = plan.from;
    for (const PlanStep& step : plan.steps) {
      for (const Wait& wait : step.after) {
        first = std::min({first, wait.since, wait.closing_since.value_or(first)});
      }
    }
    return first;
  }

  std::vector<OpenWait> waits_of(const PlanStep& step) {
    std::vector<OpenWait> waits;
    for (const Wait& wait : step.after) {
      if (!is_uncertain(wait)) {
        continue;
      }
      OpenWait open{&wait, timing_of(wait.phases), std::nullopt, 0.0, std::nullopt};
      open.opening_deviate = opening(open).opening_deviate(open.timing, step.start);
      if (wait.closing) {
        open.closing = timing_of({*wait.closing});
        open.closing_deviate = closing(open).closing_deviate(*open.closing, step.start);
      }
      waits.push_back(std::move(open));
    }
    return waits;
  }

  CoatProgress opening(const OpenWait& open) {
    return {clocks_, open.wait->since, open.wait->gate};
  }
  CoatProgress closing(const OpenWait& open) {
    return {clocks_, *open.wait->closing_since, std::nullopt};
  }

  void join_stretches() {
    for (const StepWaits& one : steps_) {
      const bool follows =
          !stretches_.empty() && one.step->start - stretches_.back().end <= kCalendarGrain;
      if (!follows) {
        stretches_.push_back({{}, one.step->start, one.step->end});
      }
      Stretch& stretch = stretches_.back();
      stretch.end = std::max(stretch.end, one.step->end);
      stretch_of_[one.step->id] = stretches_.size() - 1;
      if (!one.waits.empty()) {
        stretch.waiting.push_back(&one);
      }
    }
  }

  [[nodiscard]] static bool holds(const OpenWait& open, Draw& draw) {
    const int coat = open.wait->step;
    return draw.opening(coat) <= open.opening_deviate &&
           (!open.closing_deviate || draw.closing(coat) >= *open.closing_deviate);
  }

  bool count_held(Draw& draw, std::vector<int>& held) const {
    bool all = true;
    for (std::size_t i = 0; i < steps_.size(); ++i) {
      const bool step_holds = std::all_of(steps_[i].waits.begin(),
                                          steps_[i].waits.end(),
                                          [&](const OpenWait& open) { return holds(open, draw); });
      held[i] += step_holds ? 1 : 0;
      all = all && step_holds;
    }
    return all;
  }

  /// Each stretch at its time or, where something in it is not ready, put off until it is and the
  /// shop is open; what a stretch lays dries from then. A window that has closed by then is a coat
  /// that does not hold.
  bool ends_in_time(Draw& draw) {
    if (!plan_.complete) {
      return false;
    }
    late_.assign(stretches_.size(), seconds(0));
    for (std::size_t i = 0; i < stretches_.size(); ++i) {
      const auto start = start_of(i, draw);
      if (!start || is_closed(stretches_[i], *start, draw)) {
        return false;
      }
      late_[i] = *start - stretches_[i].start;
    }
    const seconds late = late_.empty() ? seconds(0) : late_.back();
    return !plan_.finish || *plan_.finish + late <= plan_.by;
  }

  std::optional<Time> start_of(std::size_t i, Draw& draw) {
    const Stretch& stretch = stretches_[i];
    Time ready = stretch.start;
    if (i > 0) {
      ready = std::max(ready, stretches_[i - 1].end + late_[i - 1]);
    }
    for (const StepWaits* one : stretch.waiting) {
      for (const OpenWait& open : one->waits) {
        CoatProgress drying(clocks_, open.wait->since + late_of(open.wait->step), open.wait->gate);
        const auto at = drying.opens(open.timing, draw.opening(open.wait->step), latest_);
        if (!at) {
          return std::nullopt;
        }
        ready = std::max(ready, *at - (one->step->start - stretch.start));
      }
    }
    return ready <= stretch.start ? std::optional(stretch.start)
                                  : hours_.first_fit(ready, stretch.end - stretch.start);
  }

  bool is_closed(const Stretch& stretch, Time start, Draw& draw) {
    for (const StepWaits* one : stretch.waiting) {
      const Time at = start + (one->step->start - stretch.start);
      for (const OpenWait& open : one->waits) {
        if (!open.closing) {
          continue;
        }
        CoatProgress closing(
            clocks_, *open.wait->closing_since + late_of(open.wait->step), std::nullopt);
        if (draw.closing(open.wait->step) < closing.closing_deviate(*open.closing, at)) {
          return true;
        }
      }
    }
    return false;
  }

  /// How much later than planned a step took place in this trial.
  [[nodiscard]] seconds late_of(int step) const {
    const auto found = stretch_of_.find(step);
    return found == stretch_of_.end() ? seconds(0) : late_[found->second];
  }

  const Plan& plan_;
  DryingClocks clocks_;
  OpeningHours hours_;
  std::vector<StepWaits> steps_;
  std::vector<Stretch> stretches_;
  std::map<int, std::size_t> stretch_of_;                 ///< By step id.
  Time latest_ = plan_.by + std::chrono::hours(24 * 28);  ///< What is not ready then is too late.
  std::vector<seconds> late_;                             ///< By stretch, in one trial.
};

}  // namespace

PlanOdds odds_of(const Plan& plan, const AirRecord& air, int trials, unsigned seed) {
  return Play(plan, air).run(trials, seed);
}

}  // namespace coatwright
