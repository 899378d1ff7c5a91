#include "plan/shop_writer.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "air/surface.h"
#include "plan/allowed_starts.h"
#include "plan/step_writer.h"

namespace coatwright {
namespace {

/// Ids of a part's steps before all are in one order.
constexpr int kIdsOfPart = 1'000'000;

bool makes_dust(StepKind kind) {
  return kind == StepKind::kSand || kind == StepKind::kAbrade || kind == StepKind::kRaiseGrain;
}

class ShopWriter {
 public:
  ShopWriter(const ShopContext& context, const ShopModel& model, const StartTimes& schedule)
      : context_(context),
        model_(model),
        schedule_(schedule),
        rule_{normal_deviate(context.request.confidence), context.request.horizon} {
    written_.first_steps.assign(model.roles.size(), 0);
    written_.ends.resize(context.request.jobs.size());
  }

  Result<WrittenShop> all() {
    for (std::size_t part = 0; part < model_.chains.size(); ++part) {
      if (const auto done = write_part(part); !done || written_.misplaced) {
        return done ? Result<WrittenShop>(std::move(written_)) : pass_on(done.error());
      }
    }
    for (std::size_t job = 0; job < model_.builds.size(); ++job) {
      write_builds(job);
    }
    put_in_order();
    return std::move(written_);
  }

 private:
  [[nodiscard]] Time start_of(int activity) const {
    return model_.ticks.time(schedule_.starts[static_cast<std::size_t>(activity)]);
  }
  [[nodiscard]] Time end_of(int activity) const {
    const auto place = static_cast<std::size_t>(activity);
    return model_.ticks.time(schedule_.starts[place] + model_.project.activities[place].length);
  }
  [[nodiscard]] static int first_id(std::size_t part) {
    return static_cast<int>(part + 1) * kIdsOfPart;
  }

  [[nodiscard]] Prescription prescription_of(std::size_t part) const {
    Prescription prescription;
    prescription.open_from = context_.shop.parts[part].open_from;
    prescription.stops_with = model_.chains[part]->alone.stopped_by;
    const auto& placed = model_.chains[part]->alone.sessions;
    for (std::size_t i = 0; i < placed.size(); ++i) {
      const ModelSession& session = model_.sessions[part][i];
      PrescribedSession one;
      one.not_before = start_of(session.activity);
      if (placed[i].options > 0) {
        one.option = placed[i].option;
      }
      if (session.is_shared) {
        one.session = session.session;
      }
      prescription.sessions.push_back(std::move(one));
    }
    return prescription;
  }

  /// The first session that is not where the schedule has it.
  void find_misplaced(std::size_t part, const Chain& chain) {
    for (std::size_t i = 0; i < model_.sessions[part].size(); ++i) {
      const int activity = model_.sessions[part][i].activity;
      const bool is_there =
          i < chain.sessions.size() && chain.sessions[i].start == start_of(activity) &&
          chain.sessions[i].start + chain.sessions[i].session.length <= end_of(activity);
      if (!is_there) {
        written_.misplaced =
            Misplaced{activity, schedule_.starts[static_cast<std::size_t>(activity)]};
        return;
      }
    }
  }

  Result<void> write_part(std::size_t part) {
    const ShopPart& asked = context_.shop.parts[part];
    const Prescription prescription = prescription_of(part);
    auto chain = place_chain(asked.request,
                             asked.progress,
                             model_.chains[part]->works,
                             Strictness::kPlan,
                             context_.book,
                             context_.clocks,
                             &prescription);
    if (!chain) {
      return pass_on(chain.error());
    }
    find_misplaced(part, *chain);
    if (written_.misplaced) {
      return {};
    }
    Chain placed = std::move(*chain);
    for (PlanStep& step : placed.steps) {
      adopt(part, step);
      written_.steps.push_back(std::move(step));
    }
    placed.steps.clear();
    write_last_drying(part, placed);
    for (PlanWarning& warning : placed.warnings) {
      if (warning.step) {
        warning.step = *warning.step + first_id(part);
      }
      written_.warnings.push_back(std::move(warning));
    }
    placed.warnings.clear();
    for (std::size_t i = 0; i < placed.sessions.size(); ++i) {
      int& first =
          written_.first_steps[static_cast<std::size_t>(model_.sessions[part][i].activity)];
      // Of a shared session the part that has the setting up comes first.
      first = first == 0 ? placed.sessions[i].first_step + first_id(part) : first;
    }
    const auto job = static_cast<std::size_t>(asked.job);
    if (placed.finish) {
      written_.ends[job] = std::max(written_.ends[job].value_or(*placed.finish), *placed.finish);
    } else {
      unended_.push_back(job);
    }
    written_.chains.push_back(std::move(placed));
    return {};
  }

  /// What dries last lies on the rack until it may be handled.
  void write_last_drying(std::size_t part, const Chain& placed) {
    if (!context_.request.resources.rack_places || placed.sessions.empty()) {
      return;
    }
    const WorkItem& work = model_.chains[part]->works[placed.sessions.back().work];
    if (work.kind != WorkItem::Kind::kCoat) {
      return;
    }
    const LaidCoat& coat = *placed.last_coats[static_cast<std::size_t>(work.faces.front())];
    const auto timing = coat.timing(Stage::kHandle);
    const auto handled =
        timing ? coat.since_end(context_.clocks).opens(*timing, rule_.deviate, rule_.horizon)
               : std::nullopt;
    const ModelSession& session = model_.sessions[part].back();
    const Time from = session.is_shared ? start_of(session.activity) + session.session.wet_end
                                        : end_of(session.activity);
    if (!handled || *handled <= from) {
      return;
    }
    const ShopPart& asked = context_.shop.parts[part];
    PlanStep step;
    step.id = next_build_++;
    step.piece = asked.request.piece.name;
    step.part = asked.name;
    step.kind = StepKind::kWait;
    step.product = coat.product->name;
    step.product_title = coat.product->title;
    step.start = from;
    step.end = *handled;
    step.attended = false;
    step.people = 0;
    step.rack_places = asked.rack_places;
    step.air = context_.clocks.air().at(from);
    step.surface = surface_temperature(context_.clocks.air(), from);
    written_.steps.push_back(std::move(step));
  }

  /// A step as one of the shop's.
  void adopt(std::size_t part, PlanStep& step) const {
    step.id += first_id(part);
    step.part = context_.shop.parts[part].name;
    for (Wait& wait : step.after) {
      wait.step += wait.step == 0 ? 0 : first_id(part);
    }
    if (step.rack_places > 0) {
      step.rack_places = context_.shop.parts[part].rack_places;
    }
    if (context_.request.resources.finishing_apart && makes_dust(step.kind)) {
      step.room = "bench";
    }
  }

  // --- What joins the parts.

  [[nodiscard]] std::size_t first_part_of(std::size_t job) const {
    std::size_t first = 0;
    for (std::size_t i = 0; i < job; ++i) {
      first += context_.request.jobs[i].parts.size();
    }
    return first;
  }

  /// A glue-up whose clamps, or whose glue line, keep what follows waiting.
  struct Clamped {
    int step = 0;
    Time since;
    const BuildWork* work = nullptr;
  };

  /// What the glue-ups of a part keep waiting.
  struct Joints {
    std::optional<Clamped> clamped;   ///< The next work.
    std::vector<Clamped> to_surface;  ///< The next sanding.
  };

  void write_builds(std::size_t job) {
    const JobRequest& asked = context_.request.jobs[job];
    std::vector<Joints> joints(asked.parts.size());
    for (const BuildWork& work : asked.build) {
      if (work.done_at) {
        write_done_build(asked, work, joints);
      }
    }
    for (const bool before : {true, false}) {
      for (std::size_t i = 0; i < asked.build.size(); ++i) {
        const int activity = model_.builds[job][i];
        if (asked.build[i].before_finish == before && activity >= 0) {
          write_build(job, asked.build[i], activity, joints);
        }
      }
      if (before) {
        add_glue_waits_to_finishing(job, joints);
      }
    }
    bool all_planned = true;
    for (std::size_t i = 0; i < asked.build.size(); ++i) {
      all_planned = all_planned && (asked.build[i].done_at || model_.builds[job][i] >= 0);
    }
    if (!all_planned || std::find(unended_.begin(), unended_.end(), job) != unended_.end()) {
      written_.ends[job].reset();
    }
  }

  void write_build(std::size_t job,
                   const BuildWork& work,
                   int activity,
                   std::vector<Joints>& joints) {
    const JobRequest& asked = context_.request.jobs[job];
    PlanStep step = bare_step(asked, work, start_of(activity));
    step.end = end_of(activity);
    step.people = work.people;
    step.benches = work.at_bench ? 1 : 0;
    step.work_source = work.source;
    if (!work.name.empty()) {
      step.notes.push_back(work.name);
    }
    written_.first_steps[static_cast<std::size_t>(activity)] = step.id;
    for (const int part : work.parts) {
      Joints& of_part = joints[static_cast<std::size_t>(part)];
      add_clamp_wait(of_part, step);
      if (work.kind == StepKind::kSand) {
        add_surface_waits(of_part, step);
      }
      if (!work.before_finish) {
        add_film_waits(first_part_of(job) + static_cast<std::size_t>(part), work.needs, step);
      }
    }
    auto& end = written_.ends[job];
    end = std::max(end.value_or(step.end), step.end);
    const Clamped clamped{step.id, step.end, &work};
    written_.steps.push_back(std::move(step));
    if (work.glue != nullptr) {
      clamp(asked, clamped, joints);
    }
  }

  void clamp(const JobRequest& asked, const Clamped& clamped, std::vector<Joints>& joints) {
    for (const int part : clamped.work->parts) {
      Joints& of_part = joints[static_cast<std::size_t>(part)];
      of_part.clamped = clamped;
      of_part.to_surface.push_back(clamped);
    }
    write_clamps(asked, *clamped.work, clamped.since);
  }

  /// What is logged as done, and the clamps that it may have on.
  void write_done_build(const JobRequest& asked,
                        const BuildWork& work,
                        std::vector<Joints>& joints) {
    // A part's log has written its own entry already.
    auto logged =
        std::find_if(written_.steps.begin(), written_.steps.end(), [&](const PlanStep& one) {
          return one.done && one.piece == asked.name && one.kind == work.kind &&
                 one.start == *work.done_at && one.notes.empty();
        });
    if (logged == written_.steps.end()) {
      written_.steps.push_back(bare_step(asked, work, *work.done_at));
      logged = std::prev(written_.steps.end());
      logged->done = true;
      logged->people = 0;
    }
    if (work.glue != nullptr) {
      logged->product = work.glue->name;
      logged->product_title = work.glue->title;
    }
    if (!work.name.empty()) {
      logged->notes.push_back(work.name);
    }
    const Clamped clamped{logged->id, *work.done_at, &work};
    if (work.glue != nullptr) {
      clamp(asked, clamped, joints);
    }
  }

  PlanStep bare_step(const JobRequest& asked, const BuildWork& work, Time start) {
    PlanStep step;
    step.id = next_build_++;
    step.piece = asked.name;
    step.part = parts_in_words(asked, work);
    step.kind = work.kind;
    step.start = start;
    step.end = start;
    if (work.glue != nullptr) {
      step.product = work.glue->name;
      step.product_title = work.glue->title;
    }
    if (context_.request.resources.finishing_apart) {
      step.room = "bench";
    }
    step.air = context_.clocks.air().at(start);
    step.surface = surface_temperature(context_.clocks.air(), start);
    return step;
  }

  /// The bench is taken until the clamps come off.
  void write_clamps(const JobRequest& asked, const BuildWork& work, Time since) {
    const auto off = CoatProgress(context_.clocks, since, work.glue->at_least)
                         .opens(clamp_timing(*work.glue), rule_.deviate, rule_.horizon);
    const Time from = std::max(since, context_.request.from);
    if (off && *off <= from) {
      return;  // they came off before the plan
    }
    PlanStep step = bare_step(asked, work, from);
    step.kind = StepKind::kWait;
    step.end = off.value_or(from);
    step.attended = false;
    step.people = 0;
    step.benches = work.at_bench ? 1 : 0;
    step.notes.emplace_back("In clamps.");
    written_.steps.push_back(std::move(step));
  }

  void add_clamp_wait(Joints& joints, PlanStep& step) {
    if (joints.clamped) {
      const Glue& glue = *joints.clamped->work->glue;
      add_glue_wait(*joints.clamped, {"clamps-off", glue.source, clamp_timing(glue)}, step);
      joints.clamped.reset();
    }
  }

  /// Sanding waits until the glue lines have lost their water, or they sink later.
  void add_surface_waits(Joints& joints, PlanStep& step) {
    for (const Clamped& joint : joints.to_surface) {
      const Glue& glue = *joint.work->glue;
      if (auto timing = surface_timing(glue)) {
        add_glue_wait(joint, {"surfacing", glue.surface_source, std::move(*timing)}, step);
      }
    }
    joints.to_surface.clear();
  }

  struct GlueStage {
    std::string name;
    std::string source;
    StageTiming timing;
  };

  void add_glue_wait(const Clamped& joint, const GlueStage& stage, PlanStep& step) {
    const Glue& glue = *joint.work->glue;
    Wait wait;
    wait.step = joint.step;
    wait.stage = stage.name;
    wait.product = glue.title;
    wait.since = joint.since;
    wait.gate = glue.at_least;
    wait.source = stage.source;
    wait.condition = "none";
    const PlanRequest& request = context_.shop.parts.front().request;
    StepWriter(request, context_.clocks, rule_)
        .add_wait(step,
                  std::move(wait),
                  stage.timing,
                  CoatProgress(context_.clocks, joint.since, glue.at_least));
  }

  [[nodiscard]] PlanStep& step_of_id(int id) {
    return *std::find_if(written_.steps.begin(), written_.steps.end(), [&](const PlanStep& step) {
      return step.id == id;
    });
  }

  /// The first work on a part after it was glued up waits for the clamps, its first sanding for the
  /// glue line.
  void add_glue_waits_to_finishing(std::size_t job, std::vector<Joints>& joints) {
    for (std::size_t i = 0; i < joints.size(); ++i) {
      const std::size_t part = first_part_of(job) + i;
      const auto& placed = written_.chains[part].sessions;
      if (placed.empty()) {
        continue;
      }
      add_clamp_wait(joints[i], step_of_id(placed.front().first_step + first_id(part)));
      const PartChain& chain = *model_.chains[part];
      const auto sanding = std::find_if(placed.begin(), placed.end(), [&](const auto& session) {
        return sands(chain.works[session.work], session);
      });
      if (sanding != placed.end()) {
        add_surface_waits(joints[i], step_of_id(sanding->first_step + first_id(part)));
      }
    }
  }

  void add_film_waits(std::size_t part, Stage needs, PlanStep& step) {
    PieceState state;
    state.last_coats = written_.chains[part].last_coats;
    const std::size_t before = step.after.size();
    StepWriter(context_.shop.parts[part].request, context_.clocks, rule_)
        .add_stage_waits(step, needs, state.every_face(), state);
    for (std::size_t i = before; i < step.after.size(); ++i) {
      step.after[i].step += first_id(part);
    }
  }

  void put_in_order() {
    std::stable_sort(
        written_.steps.begin(), written_.steps.end(), [](const PlanStep& a, const PlanStep& b) {
          return a.done != b.done ? a.done : a.start < b.start;
        });
    std::map<int, int> ids{{0, 0}};
    for (PlanStep& step : written_.steps) {
      const int id = static_cast<int>(ids.size());
      ids[step.id] = id;
      step.id = id;
    }
    for (PlanStep& step : written_.steps) {
      for (Wait& wait : step.after) {
        wait.step = ids[wait.step];
      }
    }
    for (PlanWarning& warning : written_.warnings) {
      if (warning.step) {
        warning.step = ids[*warning.step];
      }
    }
    for (int& first : written_.first_steps) {
      first = ids[first];
    }
  }

  const ShopContext& context_;
  const ShopModel& model_;
  const StartTimes& schedule_;
  WaitRule rule_;
  int next_build_ = 1;
  std::vector<std::size_t> unended_;  ///< Jobs with a part that comes to no end.
  WrittenShop written_;
};

}  // namespace

Result<WrittenShop> write_shop(const ShopContext& context,
                               const ShopModel& model,
                               const StartTimes& schedule) {
  return ShopWriter(context, model, schedule).all();
}

}  // namespace coatwright
