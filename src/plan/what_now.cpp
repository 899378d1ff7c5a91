#include "plan/what_now.h"

#include <algorithm>
#include <tuple>
#include <utility>

#include <fmt/format.h>

#include "plan/air_limits.h"
#include "plan/building_now.h"
#include "plan/room_now.h"
#include "plan/safety_now.h"
#include "plan/verdict.h"

namespace coatwright {
namespace {

constexpr std::chrono::hours kCureHorizon{24 * 200};

std::string face_name(const std::vector<int>& faces, Faces piece) {
  if (piece == Faces::kOne) {
    return "";
  }
  return faces.size() > 1 ? "both" : faces.front() == 0 ? "back" : "front";
}

/// Looks at one piece.
class PieceView {
 public:
  PieceView(const Standing& standing, RoomNow& room)
      : standing_(standing), room_(room), state_(standing.state(room.request.now)) {}

  Result<PieceNow> look() {
    now_.piece = standing_.piece->name;
    now_.warnings = standing_.progress.warnings;
    add_open();
    const auto added = room_.request.asked ? add_asked(*room_.request.asked) : add_next();
    if (!added) {
      return pass_on(added.error());
    }
    add_stages();
    std::stable_sort(now_.steps.begin(), now_.steps.end(), &comes_first);
    return std::move(now_);
  }

 private:
  using Kind = WorkItem::Kind;

  /// What closes first, then by readiness and by the moment it opens.
  static bool comes_first(const StepNow& a, const StepNow& b) {
    const auto key = [](const StepNow& step) {
      const bool closes = step.closes_at && step.readiness <= Readiness::kMayBeDone;
      return std::tuple(!closes,
                        closes ? *step.closes_at : Time(),
                        step.readiness,
                        step.opens_at.value_or(Time::max()));
    };
    return key(a) < key(b);
  }

  StepNow step_of(StepKind kind, const std::vector<int>& faces) const {
    StepNow step;
    step.kind = kind;
    step.face = face_name(faces, standing_.piece->faces);
    return step;
  }

  /// A step that waits for a moment.
  void add(StepNow step, const Ready& ready) {
    const bool may = ready.at && *ready.at <= room_.request.now;
    step.readiness = may ? Readiness::kMayBeDone : Readiness::kNotYet;
    step.opens_at = may ? std::nullopt : ready.at;
    step.reason = may ? "" : ready.reason;
    step.source = ready.source;
    now_.steps.push_back(std::move(step));
  }

  void add_open() {
    const Progress& progress = standing_.progress;
    if (progress.wipe) {
      StepNow step = step_of(StepKind::kWipe, progress.wipe->faces);
      const LaidCoat& coat = *state_.on(progress.wipe->faces.front());
      name_product(*coat.product, step);
      step.readiness = Readiness::kOpen;
      step.opens_at = progress.wipe->opens;
      step.closes_at = coat.begun + wipe_closes(*coat.product, coat.begun, room_.clocks);
      step.source = coat.product->wipe_off->source;
      step.reason = "What is left on stays tacky";
      now_.steps.push_back(std::move(step));
    }
    if (progress.rags_open) {
      StepNow step = step_of(StepKind::kRags, state_.every_face());
      name_product(*progress.rags_of, step);
      step.readiness = Readiness::kOpen;
      step.reason =
          progress.rags_overruled
              ? "Left out, with a reason in the log; they still lie there, and can ignite by "
                "themselves: into a closed metal container full of water, or a listed oily-waste "
                "can, now"
              : "Not logged as seen to; oily rags can ignite by themselves: into a closed metal "
                "container full of water, or a listed oily-waste can, now";
      step.source = progress.rags_of->hazards.source;
      now_.steps.push_back(std::move(step));
    }
  }

  static void name_product(const Product& product, StepNow& step) {
    step.product = product.name;
    step.product_title = product.title;
  }

  /// Whether a step comes after a coat that is still to be put on. @param seen the faces of such
  /// coats. Rubbing out comes after those of all faces.
  static bool follows_a_coat(const WorkItem& work, const std::vector<bool>& seen) {
    const auto is_seen = [&](int face) { return seen[static_cast<std::size_t>(face)]; };
    return work.kind == Kind::kRubOut ? std::any_of(work.faces.begin(), work.faces.end(), is_seen)
                                      : std::all_of(work.faces.begin(), work.faces.end(), is_seen);
  }

  /// The next steps of the schedule: what prepares, the next coat of each face, and what it needs.
  Result<void> add_next() {
    std::string before;
    std::vector<bool> seen(state_.last_coats.size(), false);
    for (const WorkItem& work : standing_.left) {
      if (work.kind == Kind::kFlip) {
        continue;  // comes with the coat on the other face
      }
      if (work.kind != Kind::kCoat) {
        if (!follows_a_coat(work, seen)) {
          add_preparation(work, before);
        }
        continue;
      }
      const bool known = std::all_of(work.faces.begin(), work.faces.end(), [&](int face) {
        return seen[static_cast<std::size_t>(face)];
      });
      if (known) {
        continue;
      }
      for (const int face : work.faces) {
        seen[static_cast<std::size_t>(face)] = true;
      }
      if (const auto added = add_coat(work, before); !added) {
        return added;
      }
    }
    return {};
  }

  /// @param before grows by the step's words: a coat comes after it.
  void add_preparation(const WorkItem& work, std::string& before) {
    const bool is_next = before.empty();
    const StepKind kind = kind_of(work.kind);
    before += (before.empty() ? "" : ", ") + std::string(name_of(kind)) +
              (work.grit.empty() ? "" : " " + work.grit);
    // A sample board and the first grit may be taken in any order; the others come in turn.
    if (!is_next && !(work.kind == Kind::kSand && before.find(',') == before.rfind(','))) {
      return;
    }
    StepNow step = step_of(kind, work.faces);
    step.grit = work.grit;
    add(std::move(step), ready_for_preparation(work));
  }

  [[nodiscard]] static StepKind kind_of(Kind kind) {
    switch (kind) {
      case Kind::kSample:
        return StepKind::kSample;
      case Kind::kRaiseGrain:
        return StepKind::kRaiseGrain;
      case Kind::kRubOut:
        return StepKind::kRubOut;
      default:
        return StepKind::kSand;
    }
  }

  [[nodiscard]] Ready ready_for_preparation(const WorkItem& work) {
    switch (work.kind) {
      case Kind::kSand:
        return ready_to_sand(work.faces);
      case Kind::kRubOut:
        return ready_to_rub_out(*work.step);
      default:
        return at_once();
    }
  }

  /// When the last coats are hard enough for the wait that a step of rubbing out names.
  [[nodiscard]] Ready ready_to_rub_out(const ScheduleStep& step) {
    Ready latest = at_once();
    for (const auto& coat : state_.last_coats) {
      const auto timing = coat ? rub_out_timing(step, *coat) : std::nullopt;
      if (timing) {
        const DryingStage* cured = coat->product->stage(Stage::kFullCure);
        const bool own = step.waits || cured == nullptr;
        Ready ready = room_.reached(*coat, *timing, "rub-out", own ? step.source : cured->source);
        latest = ready.later_than(latest) ? std::move(ready) : latest;
      }
    }
    return latest;
  }

  [[nodiscard]] Ready at_once() const { return {room_.request.now, "", ""}; }

  [[nodiscard]] Ready ready_to_sand(const std::vector<int>& faces) {
    Ready latest = room_.dust_free();
    for (const int face : faces) {
      if (const auto& coat = state_.on(face)) {
        Ready ready = room_.reached(*coat, Stage::kSandable);
        latest = ready.later_than(latest) ? std::move(ready) : latest;
      }
    }
    return latest;
  }

  [[nodiscard]] Ready ready_for(Stage stage) {
    Ready latest = at_once();
    for (const auto& coat : state_.last_coats) {
      if (coat) {
        Ready ready = room_.reached(*coat, stage);
        latest = ready.later_than(latest) ? std::move(ready) : latest;
      }
    }
    return latest;
  }

  Result<void> add_coat(const WorkItem& work, const std::string& before) {
    const auto& up = standing_.progress.up;
    const bool turned_away =
        standing_.piece->faces == Faces::kTwo && up && work.faces.front() != *up;
    if (turned_away) {
      add(step_of(StepKind::kFlip, work.faces), ready_for(Stage::kHandle));
    }
    StepNow step = step_of(StepKind::kApply, work.faces);
    name_product(*work.product, step);
    step.method = work.step == nullptr ? "" : std::string(name_of(work.step->method));
    step.coat = work.coat;
    if (const auto judged = judge(work, step); !judged) {
      return pass_on(judged.error());
    }
    use_up_mix(*work.product, step);
    add_abrading(work, step);
    if (step.readiness == Readiness::kMayBeDone && (turned_away || !before.empty())) {
      step.readiness = Readiness::kNotYet;
      step.first = before.empty() ? "turn it over" : "not logged yet: " + before;
    }
    now_.steps.push_back(std::move(step));
    return {};
  }

  /// What is mixed for a coat must be on before its pot life ends.
  void use_up_mix(const Product& product, StepNow& step) {
    const auto& mixed = standing_.progress.mixed_at;
    if (!mixed || !product.mix || !product.mix->pot_life) {
      return;
    }
    constexpr std::chrono::hours kForgotten{24};
    const Time ends = *mixed + pot_life_of(product, *mixed, room_.clocks);
    if (ends > room_.request.now) {
      step.closes_at = std::min(step.closes_at.value_or(ends), ends);
      step.reason += (step.reason.empty() ? "" : ". ") +
                     std::string("What is mixed is past its pot life from then on");
    } else if (room_.request.now - *mixed < kForgotten) {
      step.first = "mix anew: what was mixed is past its pot life";
    }
  }

  /// What the faces of a coat say, the worst of them.
  Result<void> judge(const WorkItem& work, StepNow& step) {
    std::optional<Finding> worst;
    for (const int face : work.faces) {
      const auto& coat = state_.on(face);
      auto verdict = judge_coat(*work.product,
                                room_.request.now,
                                coat ? &*coat : nullptr,
                                state_.abraded[static_cast<std::size_t>(face)],
                                room_.request.confidence,
                                room_.book,
                                room_.clocks.air());
      if (!verdict && verdict.error().code == ErrorCode::kNotFound) {
        step.readiness = Readiness::kNotYet;
        step.reason = verdict.error().message;
        step.first = "try the pair on an off-cut, and go by the label";
        return {};
      }
      if (!verdict) {
        return pass_on(verdict.error());
      }
      Finding finding = verdict->findings.front();
      if (!worst || std::tuple(finding.kind != VerdictKind::kInWindow, finding.by) >
                        std::tuple(worst->kind != VerdictKind::kInWindow, worst->by)) {
        worst = std::move(finding);
      }
    }
    take(*worst, *work.product, step);
    return {};
  }

  void take(const Finding& finding, const Product& product, StepNow& step) {
    step.chance = finding.chance;
    step.reason = finding.text;
    step.source = finding.source;
    step.first = finding.first;
    switch (finding.kind) {
      case VerdictKind::kInWindow:
        step.readiness = Readiness::kMayBeDone;
        step.closes_at = finding.moment;
        step.first = finding.to_do;
        return;
      case VerdictKind::kForbidden:
        step.readiness = Readiness::kNever;
        return;
      case VerdictKind::kEarly:
        step.readiness = Readiness::kNotYet;
        step.opens_at = finding.moment ? within_limits(product, *finding.moment) : std::nullopt;
        return;
      case VerdictKind::kOutsideLimits:
        step.readiness = Readiness::kNotYet;
        step.opens_at = within_limits(product, room_.request.now);
        return;
      case VerdictKind::kLate:
      case VerdictKind::kUnabraded:
        window_asks_for_abrading_ = true;
        break;
    }
    step.readiness = Readiness::kNotYet;
  }

  /// The first moment from which the air keeps a product's limits until its critical stage.
  [[nodiscard]] std::optional<Time> within_limits(const Product& product, Time from) {
    const AirLimits limits(room_.clocks.air(), product);
    LaidCoat coat;
    coat.product = &product;
    for (std::optional<Time> at = from; at;) {
      coat.ended = *at;
      const Time set =
          coat.past_critical_stage(room_.clocks, room_.rule).value_or(room_.rule.horizon);
      const auto breach = limits.first_breach(*at, set);
      if (!breach) {
        return at;
      }
      at = limits.next_kept(breach->at, room_.rule.horizon);
    }
    return std::nullopt;
  }

  /// Abrading, where the schedule or the window asks for it before the next coat.
  void add_abrading(const WorkItem& work, StepNow& coat) {
    const LaidCoat* under = nullptr;
    bool abraded = true;
    for (const int face : work.faces) {
      if (const auto& one = state_.on(face)) {
        under = &*one;
        abraded = abraded && state_.abraded[static_cast<std::size_t>(face)];
      }
    }
    if (under == nullptr || abraded) {
      return;
    }
    const bool window_asks =
        std::exchange(window_asks_for_abrading_, false) && !under->product->abrade_grit.empty();
    if (work.abrade_grit.empty() && !window_asks) {
      return;
    }
    StepNow step = step_of(StepKind::kAbrade, work.faces);
    step.grit = work.abrade_grit.empty() ? under->product->abrade_grit : work.abrade_grit;
    step.coat = work.coat;
    if (!work.abrade_grit.empty() && coat.readiness == Readiness::kMayBeDone) {
      coat.readiness = Readiness::kNotYet;
      coat.first = "abrade with " + step.grit + ", as the schedule says";
    }
    add(std::move(step), ready_to_sand(work.faces));
  }

  /// A step asked about by name, whether the schedule has it next or not.
  Result<void> add_asked(const AskedStep& asked) {
    if (asked.kind == StepKind::kWipe || asked.kind == StepKind::kRags) {
      const bool open = std::any_of(now_.steps.begin(), now_.steps.end(), [&](const auto& one) {
        return one.kind == asked.kind;
      });
      if (!open) {
        add(step_of(asked.kind, state_.every_face()), at_once());
      }
      return {};
    }
    if (asked.kind == StepKind::kApply) {
      return add_asked_coat(*asked.product);
    }
    StepNow step = step_of(asked.kind, state_.every_face());
    step.grit = asked.grit;
    add(std::move(step), ready_for_kind(asked.kind));
    return {};
  }

  /// What a kind of step waits for. Source: common practice.
  [[nodiscard]] Ready ready_for_kind(StepKind kind) {
    switch (kind) {
      case StepKind::kSand:
      case StepKind::kAbrade:
        return ready_to_sand(state_.every_face());
      case StepKind::kFlip:
      case StepKind::kGlue:
      case StepKind::kDryFit:
      case StepKind::kAssemble:
      case StepKind::kHardware:
        return ready_for(Stage::kHandle);
      case StepKind::kMask:
      case StepKind::kDeliver:
        return ready_for(Stage::kPrintFree);
      case StepKind::kRubOut:
        return ready_to_rub_out(rub_out_step());
      default:
        return at_once();
    }
  }

  /// The schedule's step of rubbing out; one without a wait of its own where it has none.
  [[nodiscard]] const ScheduleStep& rub_out_step() const {
    static const ScheduleStep kNone;
    const auto found =
        std::find_if(standing_.works.begin(), standing_.works.end(), [](const WorkItem& work) {
          return work.kind == Kind::kRubOut;
        });
    return found == standing_.works.end() ? kNone : *found->step;
  }

  Result<void> add_asked_coat(const Product& product) {
    bool is_next = true;
    for (WorkItem work : standing_.left) {
      if (work.kind != Kind::kCoat) {
        continue;
      }
      if (work.product->name == product.name) {
        if (!is_next) {
          work.abrade_grit.clear();  // that is for the coat which the schedule has before it
        }
        return add_coat(work, "");
      }
      is_next = false;
    }
    WorkItem work;
    work.kind = Kind::kCoat;
    work.product = &product;
    work.faces = state_.every_face();
    return add_coat(work, "");
  }

  /// While coats are to come, only what the bench asks: dust and handling.
  void add_stages() {
    std::vector<Stage> stages = {Stage::kDustFree, Stage::kHandle};
    if (standing_.left.empty()) {
      stages.insert(stages.end(), {Stage::kPrintFree, Stage::kLightUse, Stage::kFullCure});
    }
    for (const Stage stage : stages) {
      std::optional<Milestone> latest;
      for (const auto& coat : state_.last_coats) {
        const auto timing = coat ? coat->timing(stage) : std::nullopt;
        if (!timing) {
          continue;
        }
        const auto at = coat->since_end(room_.clocks)
                            .opens(*timing, room_.rule.deviate, coat->ended + kCureHorizon);
        if (at && (!latest || *at > latest->at)) {
          latest = Milestone{standing_.piece->name,
                             "all",
                             std::string(name_of(stage)),
                             *at,
                             coat->product->stage(stage)->source};
        }
      }
      if (latest) {
        now_.stages.push_back(std::move(*latest));
      }
    }
  }

  const Standing& standing_;
  RoomNow& room_;
  PieceState state_;
  bool window_asks_for_abrading_ = false;  ///< Of the coat judged last.
  PieceNow now_;
};

Result<Standing> standing_of(const PieceRequest& piece, RoomNow& room) {
  Standing standing{&piece, {}, {}, {}};
  auto works = scheduled_works(*piece.schedule, room.book);
  if (!works) {
    return pass_on(works.error());
  }
  standing.works = std::move(*works);
  standing.progress = progress_of(piece, standing.works, room.request.now);
  hold_back_early_coats(standing.progress, room.book, room.clocks, room.rule);
  if (const auto& wipe = standing.progress.wipe) {
    // Nobody knows when it will be wiped: at the latest, so that what follows is not too early.
    for (const int face : wipe->faces) {
      LaidCoat& coat = standing.progress.coats_on[static_cast<std::size_t>(face)].back();
      coat.ended = std::max(coat.ended, wipe->closes);
    }
  }
  standing.left = work_sequence(piece, FaceOrder::kPerCoat, standing.works, standing.progress);
  return standing;
}

}  // namespace

std::string_view name_of(Readiness readiness) {
  switch (readiness) {
    case Readiness::kOpen:
      return "open";
    case Readiness::kMayBeDone:
      return "may be done";
    case Readiness::kNotYet:
      return "not yet";
    case Readiness::kNever:
      break;
  }
  return "never";
}

Result<std::vector<PieceNow>> what_now(const NowRequest& request,
                                       const RecipeBook& book,
                                       const AirRecord& air) {
  Time first = request.now;
  for (const PieceRequest& piece : request.pieces) {
    first = piece.log.empty() ? first : std::min(first, piece.log.front().at);
    first = piece.over ? std::min(first, piece.over->since) : first;
  }
  for (const NowBuilding& building : request.building) {
    for (const BuildWork& work : building.works) {
      first = std::min(first, work.done_at.value_or(first));
    }
  }
  RoomNow room(request, book, air, first);
  for (const PieceRequest& piece : request.pieces) {
    auto standing = standing_of(piece, room);
    if (!standing) {
      return pass_on(standing.error());
    }
    room.pieces.push_back(std::move(*standing));
  }
  std::vector<PieceNow> all;
  for (const Standing& standing : room.pieces) {
    auto now = PieceView(standing, room).look();
    if (!now) {
      return pass_on(now.error());
    }
    all.push_back(std::move(*now));
  }
  add_building(room, all);
  hold_back_unsafe(room, all);
  return all;
}

}  // namespace coatwright
