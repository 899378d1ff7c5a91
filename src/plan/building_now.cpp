#include "plan/building_now.h"

#include <algorithm>
#include <iterator>

#include <fmt/format.h>

#include "plan/air_limits.h"
#include "plan/allowed_starts.h"

namespace coatwright {
namespace {

/// What keeps one part waiting.
struct PartWaits {
  std::vector<std::string> undone;  ///< Work that comes before its finishing, by name.
  Ready clamps_off;
  Ready line_dry;
};

class BuildingView {
 public:
  BuildingView(const NowBuilding& building, RoomNow& room, std::vector<PieceNow>& all)
      : building_(building), room_(room), all_(all) {
    for (std::size_t i = 0; i < building.parts.size(); ++i) {
      waits_.push_back({{}, at_once(), at_once()});
    }
    pending_.resize(building.parts.size());
  }

  /// @return the steps of the work itself.
  std::vector<StepNow> look() {
    for (const BuildWork& work : building_.works) {
      work.done_at ? take_done(work) : take_undone(work);
    }
    for (std::size_t i = 0; i < building_.parts.size(); ++i) {
      hold_back(waits_[i], all_[building_.parts[i]]);
    }
    return std::move(steps_);
  }

 private:
  [[nodiscard]] Ready at_once() const { return {room_.request.now, "", ""}; }

  static void keep_later(Ready one, Ready& latest) {
    latest = one.later_than(latest) ? std::move(one) : latest;
  }

  /// When what was glued up at a moment has come to a stage.
  [[nodiscard]] Ready glued(const BuildWork& work,
                            const StageTiming& timing,
                            const std::string& source,
                            std::string_view state) {
    CoatProgress setting(room_.clocks, *work.done_at, work.glue->at_least);
    Ready ready{setting.opens(timing, room_.rule.deviate, room_.rule.horizon), "", source};
    if (!ready.at || *ready.at > room_.request.now) {
      ready.reason = fmt::format("The {} of '{}' {}", work.glue->title, work.name, state);
    }
    return ready;
  }

  void take_done(const BuildWork& work) {
    if (work.glue == nullptr) {
      return;
    }
    const Ready off =
        glued(work, clamp_timing(*work.glue), work.glue->source, "is setting in its clamps");
    const bool is_on = !off.at || *off.at > room_.request.now;
    if (is_on && !room_.request.asked) {
      StepNow step = step_of(work);
      step.kind = StepKind::kWait;
      step.work = fmt::format("take the clamps off after '{}'", work.name);
      add(std::move(step), off);
    }
    for (const int part : work.parts) {
      PartWaits& waits = waits_[static_cast<std::size_t>(part)];
      keep_later(off, waits.clamps_off);
      if (const auto timing = surface_timing(*work.glue)) {
        keep_later(glued(work,
                         *timing,
                         work.glue->surface_source,
                         "must have lost its water, or the line sinks after it is sanded"),
                   waits.line_dry);
      }
    }
  }

  void take_undone(const BuildWork& work) {
    std::string first;
    for (const int part : work.parts) {
      for (const std::string& name : pending_[static_cast<std::size_t>(part)]) {
        first = "not logged yet: " + name;
      }
    }
    if (first.empty() && !work.before_finish) {
      first = unfinished(work);
    }
    const auto& asked = room_.request.asked;
    if (asked ? asked->kind == work.kind : first.empty()) {
      StepNow step = step_of(work);
      step.work = work.name;
      step.first = first;
      add(std::move(step), first.empty() ? ready_for(work) : at_once());
    }
    for (const int part : work.parts) {
      const auto index = static_cast<std::size_t>(part);
      pending_[index].push_back(work.name);
      if (work.before_finish) {
        waits_[index].undone.push_back(work.name);
      }
    }
  }

  /// The parts whose finishing is to be done before it; empty: none.
  [[nodiscard]] std::string unfinished(const BuildWork& work) const {
    std::string names;
    for (const int part : work.parts) {
      const Standing& standing = room_.pieces[piece_of(part)];
      if (!standing.left.empty()) {
        names += (names.empty() ? "the finish of " : " and of ") + standing.piece->name;
      }
    }
    return names;
  }

  [[nodiscard]] std::size_t piece_of(int part) const {
    return building_.parts[static_cast<std::size_t>(part)];
  }

  [[nodiscard]] Ready ready_for(const BuildWork& work) {
    Ready latest = at_once();
    for (const int part : work.parts) {
      const PartWaits& waits = waits_[static_cast<std::size_t>(part)];
      keep_later(waits.clamps_off, latest);
      if (work.kind == StepKind::kSand) {
        keep_later(waits.line_dry, latest);
        keep_later(room_.dust_free(), latest);
      }
      if (work.before_finish) {
        continue;
      }
      for (const auto& coat : room_.pieces[piece_of(part)].progress.last_coats()) {
        if (coat) {
          keep_later(room_.reached(*coat, work.needs), latest);
        }
      }
    }
    return work.glue == nullptr ? latest : within_limits(work, std::move(latest));
  }

  /// The first moment from which the air stays within a glue's limits until its clamps come off.
  [[nodiscard]] Ready within_limits(const BuildWork& work, Ready ready) {
    constexpr std::chrono::minutes kGrain{5};
    const Glue& glue = *work.glue;
    while (ready.at && *ready.at < room_.rule.horizon) {
      const Time spread = *ready.at + span_of(work);
      const auto off = CoatProgress(room_.clocks, spread, glue.at_least)
                           .opens(clamp_timing(glue), room_.rule.deviate, room_.rule.horizon);
      const auto breach =
          glue_breach(room_.clocks.air(), glue, *ready.at, off.value_or(room_.rule.horizon));
      if (!breach) {
        return ready;
      }
      if (ready.reason.empty()) {
        const bool is_now = breach->at == room_.request.now;
        ready.reason = is_now ? breach->text
                              : fmt::format("On {} {}",
                                            show_full(breach->at, room_.clocks.air().zone()),
                                            breach->text);
        ready.source = breach->source;
      }
      ready.at = breach->at + kGrain;
    }
    return {std::nullopt, ready.reason, ready.source};
  }

  [[nodiscard]] static StepNow step_of(const BuildWork& work) {
    StepNow step;
    step.kind = work.kind;
    if (work.glue != nullptr) {
      step.product = work.glue->name;
      step.product_title = work.glue->title;
    }
    return step;
  }

  void add(StepNow step, const Ready& ready) {
    const bool is_ready = ready.at && *ready.at <= room_.request.now;
    const bool may = is_ready && step.first.empty();
    step.readiness = may ? Readiness::kMayBeDone : Readiness::kNotYet;
    if (!is_ready) {
      step.opens_at = ready.at;
      step.reason = ready.reason;
      step.source = ready.source;
    }
    steps_.push_back(std::move(step));
  }

  /// The finishing of a part comes after what is done before it.
  void hold_back(const PartWaits& waits, PieceNow& part) const {
    for (StepNow& step : part.steps) {
      if (step.readiness == Readiness::kOpen || step.readiness == Readiness::kNever ||
          step.kind == StepKind::kSample) {
        continue;
      }
      hold_back(waits.clamps_off, step);
      if (step.kind == StepKind::kSand) {
        hold_back(waits.line_dry, step);
      }
      if (!waits.undone.empty()) {
        step.readiness = Readiness::kNotYet;
        step.first = fmt::format("not logged yet: {}{}{}",
                                 waits.undone.front(),
                                 step.first.empty() ? "" : "; then ",
                                 step.first);
      }
    }
  }

  void hold_back(const Ready& ready, StepNow& step) const {
    const bool waits_anyway = step.readiness == Readiness::kNotYet && !step.first.empty();
    if (waits_anyway || (ready.at && *ready.at <= room_.request.now)) {
      return;
    }
    const bool is_later = step.readiness != Readiness::kNotYet || !step.opens_at || !ready.at ||
                          *ready.at > *step.opens_at;
    step.readiness = Readiness::kNotYet;
    if (is_later) {
      step.opens_at = ready.at;
      step.reason = ready.reason;
      step.source = ready.source;
    }
  }

  const NowBuilding& building_;
  RoomNow& room_;
  std::vector<PieceNow>& all_;
  std::vector<PartWaits> waits_;
  std::vector<std::vector<std::string>> pending_;  ///< By part: work not done so far, by name.
  std::vector<StepNow> steps_;
};

/// Whether what was asked of a part by its kind is told by the works of that kind.
bool is_told(const NowBuilding& building, const RoomNow& room, std::size_t part) {
  return room.request.asked &&
         std::find(building.parts.begin(), building.parts.end(), part) != building.parts.end();
}

}  // namespace

void add_building(RoomNow& room, std::vector<PieceNow>& all) {
  std::vector<std::vector<PieceNow>> before(all.size());  // what stands before each
  std::vector<bool> told(all.size(), false);
  for (const NowBuilding& building : room.request.building) {
    std::vector<StepNow> steps = BuildingView(building, room, all).look();
    if (steps.empty()) {
      continue;
    }
    for (std::size_t part = 0; part < all.size(); ++part) {
      told[part] = told[part] || is_told(building, room, part);
    }
    const std::size_t first = building.parts.front();
    if (building.parts.size() == 1 && !told[first]) {
      all[first].steps.insert(all[first].steps.begin(), steps.begin(), steps.end());
    } else {
      before[first].push_back({building.piece, std::move(steps), {}, {}});
    }
  }
  std::vector<PieceNow> pieces;
  for (std::size_t i = 0; i < all.size(); ++i) {
    std::move(before[i].begin(), before[i].end(), std::back_inserter(pieces));
    if (!told[i]) {
      pieces.push_back(std::move(all[i]));
    }
  }
  all = std::move(pieces);
}

}  // namespace coatwright
