#include "plan/odds.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
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
    shop_ = deviate();
    openings_.clear();
    closings_.clear();
  }
  /// The deviate of a coat's stages. @param shop_share of the stage's variance.
  double opening(int coat, double shop_share) { return whole(own(openings_, coat), shop_share); }
  /// That of the window over a coat.
  double closing(int coat, double shop_share) { return whole(own(closings_, coat), shop_share); }

 private:
  [[nodiscard]] double whole(double own, double shop_share) const {
    return std::sqrt(shop_share) * shop_ + std::sqrt(1.0 - shop_share) * own;
  }
  double own(std::map<int, double>& deviates, int coat) {
    const auto found = deviates.find(coat);
    return found != deviates.end() ? found->second
                                   : deviates.emplace(coat, deviate()).first->second;
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

/// What a step takes of the shop, from the start of its stretch.
struct StepUse {
  seconds from;
  seconds to;
  int people = 0;
  int spray_places = 0;
  int benches = 0;
};

/// Steps on one part that follow each other without a gap: they are put off together.
struct Stretch {
  std::vector<const StepWaits*> waiting;
  Time start;
  Time end;
  std::vector<StepUse> uses;
  std::size_t piece = 0;            ///< Its place in the plan.
  std::vector<std::size_t> before;  ///< Stretches that must have ended.
};

StageTiming timing_of(const std::vector<WaitPhase>& phases) {
  StageTiming timing;
  for (const WaitPhase& phase : phases) {
    timing.phases.push_back({phase.law, phase.range, 0.0});
  }
  return timing;
}

bool is_uncertain(const Wait& wait) {
  return std::any_of(wait.phases.begin(), wait.phases.end(), [](const WaitPhase& phase) {
    return phase.range.low() < phase.range.high();
  });
}

/// The parts of a piece that a step is on, by their places.
std::vector<std::size_t> parts_of(const PlanPiece& piece, const PlanStep& step) {
  std::vector<std::size_t> parts;
  const std::string names = ", " + step.part + ",";
  for (std::size_t i = 0; i < piece.parts.size(); ++i) {
    if (names.find(", " + piece.parts[i] + ",") != std::string::npos) {
      parts.push_back(i);
    }
  }
  if (parts.empty() || step.kind == StepKind::kDeliver) {
    parts.resize(std::max<std::size_t>(1, piece.parts.size()));
    std::iota(parts.begin(), parts.end(), std::size_t{0});
  }
  return parts;
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
    add_clamps();
  }

  PlanOdds run(int trials, unsigned seed) {
    Draw draw(seed);
    std::vector<int> held(steps_.size(), 0);
    std::vector<int> in_time(plan_.pieces.size(), 0);
    int all_held = 0;
    int all_in_time = 0;
    for (int i = 0; i < trials; ++i) {
      draw.next_trial();
      all_held += count_held(draw, held) ? 1 : 0;
      all_in_time += count_in_time(draw, in_time) ? 1 : 0;
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
    for (std::size_t i = 0; i < in_time.size(); ++i) {
      if (plan_.pieces[i].due) {
        odds.pieces.push_back({plan_.pieces[i].name, static_cast<double>(in_time[i]) / trials});
      }
    }
    odds.by_date = static_cast<double>(all_in_time) / trials;
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
    std::map<std::pair<std::string, std::string>, std::size_t> last_of;
    std::map<std::pair<std::size_t, std::size_t>, std::size_t> last_on;  // by piece and part
    for (const StepWaits& one : steps_) {
      const PlanStep& step = *one.step;
      const auto last = last_of.find({step.piece, step.part});
      const bool follows = last != last_of.end() &&
                           step.start - stretches_[last->second].end <= kCalendarGrain &&
                           step.start >= stretches_[last->second].end;
      if (!follows) {
        begin_stretch(step, last_on);
        last_of[{step.piece, step.part}] = stretches_.size() - 1;
      }
      const std::size_t place = last_of[{step.piece, step.part}];
      Stretch& stretch = stretches_[place];
      stretch.end = std::max(stretch.end, step.end);
      stretch.uses.push_back({step.start - stretch.start,
                              step.end - stretch.start,
                              step.people,
                              step.spray_places,
                              step.benches});
      stretch_of_[step.id] = place;
      if (!one.waits.empty()) {
        stretch.waiting.push_back(&one);
      }
    }
  }

  void begin_stretch(const PlanStep& step,
                     std::map<std::pair<std::size_t, std::size_t>, std::size_t>& last_on) {
    Stretch stretch{{}, step.start, step.end, {}, piece_of(step), {}};
    if (!plan_.pieces.empty()) {
      for (const std::size_t part : parts_of(plan_.pieces[stretch.piece], step)) {
        const auto last = last_on.find({stretch.piece, part});
        if (last != last_on.end()) {
          stretch.before.push_back(last->second);
        }
        last_on[{stretch.piece, part}] = stretches_.size();
      }
    }
    stretches_.push_back(std::move(stretch));
  }

  [[nodiscard]] std::size_t piece_of(const PlanStep& step) const {
    const auto found =
        std::find_if(plan_.pieces.begin(), plan_.pieces.end(), [&](const PlanPiece& piece) {
          return piece.name == step.piece;
        });
    return found == plan_.pieces.end() ? 0 : static_cast<std::size_t>(found - plan_.pieces.begin());
  }

  /// Clamps keep a bench after their glue-up, whenever that is.
  void add_clamps() {
    for (const PlanStep& step : plan_.steps) {
      if (step.attended || step.done || step.benches == 0) {
        continue;
      }
      for (const StepWaits& one : steps_) {
        const PlanStep& glued = *one.step;
        if (glued.kind == StepKind::kGlue && glued.piece == step.piece && glued.part == step.part &&
            glued.end == step.start) {
          Stretch& stretch = stretches_[stretch_of_[glued.id]];
          stretch.uses.push_back(
              {step.start - stretch.start, step.end - stretch.start, 0, 0, step.benches});
        }
      }
    }
  }

  [[nodiscard]] static bool holds(const OpenWait& open, Draw& draw) {
    const int coat = open.wait->step;
    return draw.opening(coat, open.timing.shop_share()) <= open.opening_deviate &&
           (!open.closing_deviate ||
            draw.closing(coat, open.closing->shop_share()) >= *open.closing_deviate);
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

  /// Each stretch at its time or, where something in it is not ready, put off until it is, and the
  /// shop is open and has what it takes; what a stretch lays dries from then. A window that has
  /// closed by then is a coat that does not hold.
  bool count_in_time(Draw& draw, std::vector<int>& in_time) {
    late_.assign(stretches_.size(), seconds(0));
    is_any_late_ = false;
    std::vector<bool> failed(plan_.pieces.size(), !plan_.complete && plan_.pieces.size() <= 1);
    for (std::size_t i = 0; i < stretches_.size(); ++i) {
      const auto start = start_of(i, draw);
      if (!start || is_closed(stretches_[i], *start, draw)) {
        failed[stretches_[i].piece] = true;
      }
      late_[i] = start ? *start - stretches_[i].start : seconds(0);
      is_any_late_ = is_any_late_ || late_[i] > seconds(0);
    }
    bool all = plan_.complete;
    for (std::size_t piece = 0; piece < plan_.pieces.size(); ++piece) {
      const bool is_in_time = !failed[piece] && ends_in_time(piece);
      in_time[piece] += is_in_time ? 1 : 0;
      all = all && is_in_time;
    }
    return all;
  }

  [[nodiscard]] bool ends_in_time(std::size_t which) const {
    const PlanPiece& piece = plan_.pieces[which];
    if (!piece.finish) {
      return false;
    }
    Time end = *piece.finish;
    for (std::size_t i = 0; i < stretches_.size(); ++i) {
      const bool is_last = stretches_[i].piece == which && stretches_[i].end + late_[i] > end;
      end = is_last ? stretches_[i].end + late_[i] : end;
    }
    return !piece.due || end <= *piece.due;
  }

  std::optional<Time> start_of(std::size_t i, Draw& draw) {
    const Stretch& stretch = stretches_[i];
    Time ready = stretch.start;
    for (const std::size_t before : stretch.before) {
      ready = std::max(ready, stretches_[before].end + late_[before]);
    }
    for (const StepWaits* one : stretch.waiting) {
      for (const OpenWait& open : one->waits) {
        const seconds late = late_of(open.wait->step);
        const double deviate = draw.opening(open.wait->step, open.timing.shop_share());
        if (late == seconds(0) && deviate <= open.opening_deviate) {
          continue;  // it is ready at its time
        }
        CoatProgress drying(clocks_, open.wait->since + late, open.wait->gate);
        const auto at = drying.opens(open.timing, deviate, latest_);
        if (!at) {
          return std::nullopt;
        }
        ready = std::max(ready, *at - (one->step->start - stretch.start));
      }
    }
    const auto start = ready <= stretch.start
                           ? std::optional(stretch.start)
                           : hours_.first_fit(ready, stretch.end - stretch.start);
    return start && (is_any_late_ || *start > stretch.start) ? among_others(i, *start) : start;
  }

  /// The first start from one on with which the stretches that come before it in the plan leave it
  /// the people and places that it takes.
  std::optional<Time> among_others(std::size_t i, Time start) const {
    if (!plan_.shop) {
      return start;
    }
    std::optional<Time> at = start;
    while (at && !has_room(i, *at)) {
      std::optional<Time> next;
      const auto offer = [&](Time moment) {
        if (moment > *at && (!next || moment < *next)) {
          next = moment;
        }
      };
      for (std::size_t other = 0; other < i; ++other) {
        for (const StepUse& use : stretches_[other].uses) {
          offer(begin_of(other) + use.to);
        }
      }
      for (const StaffedHours& hours : plan_.shop->hours) {
        offer(hours.open.start);
      }
      at = next && *next < latest_
               ? hours_.first_fit(*next, stretches_[i].end - stretches_[i].start)
               : std::nullopt;
    }
    return at;
  }

  [[nodiscard]] Time begin_of(std::size_t i) const { return stretches_[i].start + late_[i]; }

  [[nodiscard]] bool has_room(std::size_t i, Time start) const {
    const Stretch& stretch = stretches_[i];
    seconds span = stretch.end - stretch.start;
    for (const StepUse& use : stretch.uses) {
      span = std::max(span, use.to);
    }
    std::vector<Time> moments;
    for (const StepUse& use : stretch.uses) {
      moments.push_back(start + use.from);
    }
    for (const StaffedHours& hours : plan_.shop->hours) {
      if (start < hours.open.start && hours.open.start < start + span) {
        moments.push_back(hours.open.start);
      }
    }
    std::vector<std::size_t> beside;
    for (std::size_t other = 0; other < i; ++other) {
      bool is_beside = false;
      for (const StepUse& use : stretches_[other].uses) {
        const Time from = begin_of(other) + use.from;
        if (from < start + span && start < begin_of(other) + use.to) {
          is_beside = true;
          if (from > start) {
            moments.push_back(from);
          }
        }
      }
      if (is_beside) {
        beside.push_back(other);
      }
    }
    return std::all_of(moments.begin(), moments.end(), [&](Time at) {
      StepUse sum = use_at(stretch, start, at);
      const StepUse own = sum;
      for (const std::size_t other : beside) {
        const StepUse use = use_at(stretches_[other], begin_of(other), at);
        sum.people += use.people;
        sum.spray_places += use.spray_places;
        sum.benches += use.benches;
      }
      const PlanShop& shop = *plan_.shop;
      const auto fits = [](int own_share, int all, std::optional<int> there) {
        return own_share == 0 || !there || all <= *there;
      };
      return fits(own.people, sum.people, people_at(at)) &&
             fits(own.spray_places, sum.spray_places, shop.spray_places) &&
             fits(own.benches, sum.benches, shop.benches);
    });
  }

  [[nodiscard]] static StepUse use_at(const Stretch& stretch, Time start, Time at) {
    StepUse sum{seconds(0), seconds(0)};
    for (const StepUse& use : stretch.uses) {
      if (start + use.from <= at && at < start + use.to) {
        sum.people += use.people;
        sum.spray_places += use.spray_places;
        sum.benches += use.benches;
      }
    }
    return sum;
  }

  [[nodiscard]] int people_at(Time at) const {
    for (const StaffedHours& hours : plan_.shop->hours) {
      if (hours.open.start <= at && at < hours.open.end) {
        return hours.people;
      }
    }
    return 0;
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
        const double deviate = draw.closing(open.wait->step, open.closing->shop_share());
        if (deviate < closing.closing_deviate(*open.closing, at)) {
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
  bool is_any_late_ = false;                              ///< In one trial, so far.
};

}  // namespace

PlanOdds odds_of(const Plan& plan, const AirRecord& air, int trials, unsigned seed) {
  return Play(plan, air).run(trials, seed);
}

}  // namespace coatwright
