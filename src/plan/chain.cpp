#include "plan/chain.h"

#include <algorithm>

#include <fmt/format.h>

#include "plan/bench_session.h"
#include "plan/step_writer.h"

namespace coatwright {
namespace {

using std::chrono::seconds;

constexpr const char* kRaisedGrainSource = "trade_finishing_web";

constexpr seconds kShortestWaitShown = std::chrono::minutes(15);
constexpr const char* kClosedDoors = "hours when nobody is there";

/// The idle time before a session, by what it waited for.
struct Idle {
  Time dried;  ///< When drying was done with.
  std::string drying_reason;
  seconds limits_wait{0};
  std::string limits_reason;
};

/// Wood that was wetted to raise its grain.
struct Wetted {
  int step = 0;
  Time at;
};

/// Walks through the work and gives each piece of it its place.
class ChainWalk {
 public:
  ChainWalk(const PlanRequest& request,
            const Progress& progress,
            Strictness strictness,
            const RecipeBook& book,
            const WorkingTimes& times,
            DryingClocks& clocks,
            const Prescription* prescription)
      : request_(request),
        progress_(progress),
        strictness_(strictness),
        book_(book),
        clocks_(clocks),
        prescription_(prescription),
        rule_{normal_deviate(request.confidence), request.horizon},
        hours_(request.hours, strictness == Strictness::kBound ? seconds(1) : kCalendarGrain),
        sessions_(request, times),
        placement_(request, strictness, hours_, sessions_, clocks, rule_),
        writer_(request, clocks, rule_) {
    // Nothing is planned before what was done, whatever the start.
    state_.cursor = std::max(request.from, progress.last_at.value_or(request.from));
    if (prescription != nullptr && prescription->open_from) {
      state_.cursor = std::max(state_.cursor, *prescription->open_from);
    }
    state_.sanded_until = progress.sanded_until;
    state_.last_coats = progress.last_coats();
    state_.abraded = progress.abraded;
  }

  Result<Chain> place(const std::vector<WorkItem>& works) {
    writer_.write_log(progress_);
    if (const auto done = finish_what_is_open(); !done) {
      return pass_on(done.error());
    }
    chain_.first_coats = state_.last_coats;
    chain_.open_until = state_.cursor;
    for (const WorkItem& work : works) {
      work_ = static_cast<std::size_t>(&work - works.data());
      if (prescription_ != nullptr && prescription_->stops_with && prescribed_here() == nullptr) {
        chain_.stopped_by = prescription_->stops_with;
        break;
      }
      const auto placed = place_item(work);
      if (!placed) {
        return pass_on(placed.error());
      }
      if (chain_.stopped_by) {
        break;
      }
    }
    if (!chain_.stopped_by) {
      // What was done before the plan's start ended then.
      const bool nothing_left = works.empty() && !writer_.has_open_steps();
      chain_.finish = nothing_left ? progress_.last_at.value_or(state_.cursor) : state_.cursor;
    }
    chain_.warnings.insert(
        chain_.warnings.begin(), progress_.warnings.begin(), progress_.warnings.end());
    chain_.last_coats = state_.last_coats;
    chain_.steps = writer_.take_steps();
    return std::move(chain_);
  }

 private:
  /// Wiping and rags of a logged coat do not wait for shop hours.
  Result<void> finish_what_is_open() {
    if (progress_.wipe) {
      if (const auto done = wipe_off(*progress_.wipe); !done) {
        return done;
      }
    }
    const Product* rags_of = progress_.rags_open ? progress_.rags_of : nullptr;
    if (progress_.wipe) {
      const Product* wiped = state_.on(progress_.wipe->faces.front())->product;
      rags_of = wiped->hazards.rags_self_heat ? wiped : rags_of;
    }
    if (rags_of == nullptr) {
      return {};
    }
    const WorkItem rags = open_item(*rags_of, state_.every_face());
    return place_open(StepKind::kRags, "rags", rags, state_.cursor);
  }

  Result<void> wipe_off(const PendingWipe& wipe) {
    const LaidCoat coat = *state_.on(wipe.faces.front());
    WorkItem work = open_item(*coat.product, wipe.faces);
    work.coat = progress_.coats[static_cast<std::size_t>(coat.step) - 1];
    const Time from = std::max(state_.cursor, wipe.opens);
    if (const auto done = place_open(StepKind::kWipe, wipe_operation(*coat.product), work, from);
        !done) {
      return done;
    }
    PlanStep& step = writer_.last();
    writer_.add_wipe_wait(step, coat.step, coat.begun, *coat.product);
    for (const int face : wipe.faces) {
      auto& laid = state_.last_coats[static_cast<std::size_t>(face)];
      laid->ended = std::max(laid->ended, step.end);  // it may be held back longer
      laid->step = step.id;
    }
    return {};
  }

  /// What is left of the session of a coat that was logged.
  [[nodiscard]] static WorkItem open_item(const Product& product, std::vector<int> faces) {
    WorkItem work;
    work.kind = WorkItem::Kind::kCoat;
    work.product = &product;
    work.faces = std::move(faces);
    return work;
  }

  Result<void> place_open(StepKind kind,
                          const std::string& operation,
                          const WorkItem& work,
                          Time start) {
    const auto session = sessions_.single(kind, operation, work);
    if (!session) {
      return pass_on(session.error());
    }
    state_.cursor = writer_.write(session->parts.front(), start, work).end;
    return {};
  }

  Result<void> place_item(const WorkItem& work) {
    switch (work.kind) {
      case WorkItem::Kind::kCoat:
        return place_coat(work);
      case WorkItem::Kind::kRaiseGrain:
        return place_raised_grain(work);
      case WorkItem::Kind::kSand:
        return place_single(work, StepKind::kSand, "sand-" + work.grit, Stage::kDustFree);
      case WorkItem::Kind::kFlip:
        return place_single(work, StepKind::kFlip, "flip", Stage::kHandle);
      case WorkItem::Kind::kRubOut:
        return place_rub_out(work);
      case WorkItem::Kind::kSample:
        break;
    }
    return place_single(work, StepKind::kSample, "sample", Stage::kDustFree);
  }

  /// A single operation that waits until a stage is reached on every face.
  Result<void> place_single(const WorkItem& work,
                            StepKind kind,
                            const std::string& operation,
                            Stage stage) {
    const auto session = sessions_.single(kind, operation, work);
    if (!session) {
      return pass_on(session.error());
    }
    auto ready = state_.all_reached(stage, state_.every_face(), clocks_, rule_);
    // A film that is sanded must be hard enough for it; dust-free is for its neighbours.
    const bool sands = kind == StepKind::kSand;
    if (ready && sands) {
      const auto hard = state_.all_reached(Stage::kSandable, work.faces, clocks_, rule_);
      ready = hard ? Result<Time>(std::max(*ready, *hard)) : hard;
    }
    if (!ready) {
      chain_.stopped_by = ready.error().message;
      return {};
    }
    const auto start = fit(*ready, *session, name_of(kind));
    if (!start) {
      return {};
    }
    leave_idle(*start, {*ready, drying_reason(stage), seconds(0), ""});
    PlanStep& step = writer_.write(session->parts.front(), *start, work);
    writer_.add_stage_waits(step, stage, state_.every_face(), state_);
    if (sands) {
      writer_.add_stage_waits(step, Stage::kSandable, work.faces, state_);
    }
    state_.cursor = step.end;
    if (sands) {
      state_.sanded_until = step.end;
      for (const int face : work.faces) {
        state_.abraded[static_cast<std::size_t>(face)] = state_.on(face).has_value();
      }
    }
    return {};
  }

  /// A grit or the polish of rubbing out, when the last coat of every face is hard enough for it.
  Result<void> place_rub_out(const WorkItem& work) {
    const auto session = sessions_.single(StepKind::kRubOut, rub_out_operation(work), work);
    if (!session) {
      return pass_on(session.error());
    }
    const auto ready = state_.rub_out_ready(*work.step, work.faces, clocks_, rule_);
    if (!ready) {
      chain_.stopped_by = ready.error().message;
      return {};
    }
    const auto start = fit(*ready, *session, "rub out");
    if (!start) {
      return {};
    }
    leave_idle(*start, {*ready, drying_reason("rubbing out"), seconds(0), ""});
    PlanStep& step = writer_.write(session->parts.front(), *start, work);
    writer_.add_rub_out_waits(step, work, state_);
    state_.cursor = step.end;
    return {};
  }

  /// Wetting, drying, and cutting the raised fibres back.
  Result<void> place_raised_grain(const WorkItem& work) {
    const auto wetting = sessions_.single(StepKind::kRaiseGrain, "raise-grain", work);
    const auto cutting = sessions_.single(StepKind::kSand, "sand-" + work.grit, work);
    if (!wetting || !cutting) {
      return pass_on(wetting ? cutting.error() : wetting.error());
    }
    Wetted wetted;
    if (progress_.wetted_at) {
      wetted = {writer_.logged(StepKind::kRaiseGrain), *progress_.wetted_at};
    } else {
      const auto start = fit(state_.cursor, *wetting, "raise the grain");
      if (!start) {
        return {};
      }
      leave_idle(*start, {state_.cursor, "", seconds(0), ""});
      const PlanStep& step = writer_.write(wetting->parts.front(), *start, work);
      wetted = {step.id, step.end};
      state_.cursor = step.end;
    }
    const StageTiming timing = raised_grain_timing();
    CoatProgress drying(clocks_, wetted.at, std::nullopt);
    const auto ready = drying.opens(timing, rule_.deviate, rule_.horizon);
    if (!ready) {
      chain_.stopped_by = "the wetted wood does not dry before the plan is given up";
      return {};
    }
    const auto cut = fit(std::max(state_.cursor, *ready), *cutting, "cut the raised grain back");
    if (!cut) {
      return {};
    }
    chain_.sessions.back().cuts_grain = true;
    leave_idle(*cut, {*ready, "drying of the wetted wood", seconds(0), ""});
    PlanStep& step = writer_.write(cutting->parts.front(), *cut, work);
    Wait wait;
    wait.step = wetted.step;
    wait.stage = "dry";
    wait.product = "wetted wood";
    wait.since = wetted.at;
    wait.source = kRaisedGrainSource;
    wait.condition = "none";
    writer_.add_wait(step, std::move(wait), timing, drying);
    state_.cursor = step.end;
    state_.sanded_until = step.end;
    return {};
  }

  Result<void> place_coat(const WorkItem& work) {
    const auto options = recoat_options(work, state_, book_);
    if (!options) {
      return pass_on(options.error());
    }
    begin_session();
    const PrescribedSession* prescribed = prescribed_here();
    if (prescribed != nullptr) {
      state_.cursor = std::max(state_.cursor, prescribed->not_before);
    }
    const auto search = placement_.earliest(work, *options, state_, prescribed);
    if (!search) {
      return pass_on(search.error());
    }
    chain_.placements += search->tried;
    if (!search->placed) {
      chain_.stopped_by = search->why_not;
      return {};
    }
    const PlacedCoat& placed = *search->placed;
    Idle idle{free_from_,
              "",
              placed.limits_wait,
              fmt::format("air outside the limits of {}", work.product->title)};
    for (const RecoatChoice& choice : placed.choices) {
      const Time dried = choice.opens_at - placed.session.apply_offset;
      if (dried > idle.dried) {
        idle.dried = dried;
        idle.drying_reason = fmt::format("drying of {} (recoat)", choice.coat.product->title);
      }
    }
    chain_.sessions.push_back(
        {work_, false, placed.session, placed.start, 0, placed.option, options->size()});
    leave_idle(placed.start, idle);
    if (search->missed && !placed.abrade_grit.empty() && strictness_ == Strictness::kPlan) {
      warn_of_missed_window(work, *search->missed);
    }
    const LaidCoat laid = writer_.write_coat(work, placed, state_, placement_);
    for (const int face : work.faces) {
      state_.last_coats[static_cast<std::size_t>(face)] = laid;
      state_.abraded[static_cast<std::size_t>(face)] = false;
    }
    if (!placed.abrade_grit.empty()) {
      const SessionPart& abrading = placed.session.parts.front();
      state_.sanded_until = placed.start + abrading.offset + abrading.length;
    }
    state_.cursor = placed.ended();
    return {};
  }

  void warn_of_missed_window(const WorkItem& work, const RecoatChoice& choice) {
    constexpr std::chrono::minutes kStep{15};
    constexpr std::chrono::hours kSearched{24 * 7};
    Time best = choice.coat.ended;
    double best_chance = 0.0;
    for (Time at = best; at < choice.coat.ended + kSearched; at += kStep) {
      const WindowDeviates window = placement_.deviates_of(choice, at);
      // From here on it has closed so likely that no later moment is better.
      if (normal_probability(-window.closing) < best_chance) {
        break;
      }
      if (const double chance = joint_chance({&window, 1}); chance > best_chance) {
        best_chance = chance;
        best = at;
      }
    }
    std::string text;
    if (best_chance < request_.confidence) {
      text = fmt::format(
          "No moment lies inside the recoat window of {} with {:.0f} % confidence "
          "(at best {:.0f} %, {:.1f} h after the coat), so coat {} is abraded first.",
          choice.coat.product->title,
          request_.confidence * 100.0,
          best_chance * 100.0,
          Hours::from_seconds(best - choice.coat.ended).hours(),
          work.coat);
    } else {
      text = fmt::format(
          "The recoat window of {} closes while nobody is there, so coat {} is "
          "abraded first.",
          choice.coat.product->title,
          work.coat);
    }
    chain_.warnings.push_back({"window-missed", std::move(text), writer_.next_id()});
  }

  std::optional<Time> fit(Time ready, const BenchSession& session, std::string_view what) {
    ++chain_.placements;
    begin_session();
    if (const PrescribedSession* prescribed = prescribed_here(); prescribed != nullptr) {
      ready = std::max(ready, prescribed->not_before);
    }
    const auto start = hours_.first_fit(ready, session.length);
    if (!start) {
      chain_.stopped_by = hours_.why_none(session.length, what);
      return start;
    }
    chain_.sessions.push_back({work_, false, session, *start, 0, 0, 0});
    return start;
  }

  void begin_session() { free_from_ = state_.cursor; }

  /// How the next session is prescribed; null: it is not.
  [[nodiscard]] const PrescribedSession* prescribed_here() const {
    const std::size_t place = chain_.sessions.size();
    return prescription_ != nullptr && place < prescription_->sessions.size()
               ? &prescription_->sessions[place]
               : nullptr;
  }

  [[nodiscard]] std::string drying_reason(Stage stage) const {
    return drying_reason(name_of(stage));
  }

  [[nodiscard]] std::string drying_reason(std::string_view stage) const {
    for (const auto& coat : state_.last_coats) {
      if (coat) {
        return fmt::format("drying of {} ({})", coat->product->title, stage);
      }
    }
    return "";
  }

  /// Books the idle time before a session: first the drying, then the air, the rest closed doors;
  /// and shows it as a step where a coat dries meanwhile.
  void leave_idle(Time start, const Idle& idle) {
    seconds left = start - free_from_;
    const auto take = [&](seconds span, const std::string& reason) {
      const seconds part = std::clamp(span, seconds(0), left);
      if (part > seconds(0) && !reason.empty()) {
        chain_.held_up[reason] += part;
        left -= part;
      }
    };
    take(idle.dried - free_from_, idle.drying_reason);
    take(idle.limits_wait, idle.limits_reason);
    // Minutes lost to the calendar's grain are nobody's absence.
    take(left < kCalendarGrain ? seconds(0) : left, kClosedDoors);
    const auto coat = std::find_if(state_.last_coats.begin(),
                                   state_.last_coats.end(),
                                   [](const auto& one) { return one && !one->came_in; });
    if (coat != state_.last_coats.end() && start - free_from_ >= kShortestWaitShown) {
      writer_.write_drying(**coat, free_from_, start);
    }
    chain_.sessions.back().first_step = writer_.next_id();
  }

  const PlanRequest& request_;
  const Progress& progress_;
  Strictness strictness_;
  const RecipeBook& book_;
  DryingClocks& clocks_;
  const Prescription* prescription_;
  WaitRule rule_;
  OpeningHours hours_;
  SessionPlanner sessions_;
  CoatPlacement placement_;
  StepWriter writer_;
  PieceState state_;
  std::size_t work_ = 0;  ///< Place of the work at hand.
  Time free_from_;        ///< End of the session before the one at hand.
  Chain chain_;
};

}  // namespace

StageTiming raised_grain_timing() {
  const DurationRange overnight(Hours::from_hours(4), Hours::from_hours(10));
  StageTiming timing;
  timing.phases.push_back({rate_law_of(Mechanism::kWaterLoss), overnight, 0.0});
  return timing;
}

bool ends_earlier(const Chain& a, const Chain& b) {
  if (a.finish && b.finish) {
    return *a.finish < *b.finish;
  }
  return a.finish.has_value() || (!b.finish && a.steps.size() > b.steps.size());
}

Result<Chain> place_chain(const PlanRequest& request,
                          const Progress& progress,
                          const std::vector<WorkItem>& works,
                          Strictness strictness,
                          const RecipeBook& book,
                          DryingClocks& clocks,
                          const Prescription* prescription) {
  const auto times = book.working_times();
  if (!times) {
    return pass_on(times.error());
  }
  return ChainWalk(request, progress, strictness, book, **times, clocks, prescription).place(works);
}

}  // namespace coatwright
