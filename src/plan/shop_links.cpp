#include "plan/shop_links.h"

#include <algorithm>

#include "plan/allowed_starts.h"
#include "plan/dust_links.h"

namespace coatwright {
namespace {

/// What a part waits for before its next work.
struct Last {
  int activity = -1;
  Lag end;  ///< From its start.
};

/// The first of several moments.
class EarliestOf : public LagFunction {
 public:
  void add(Lag lag) { lags_.push_back(std::move(lag)); }
  [[nodiscard]] Tick at(Tick start) const override {
    Tick earliest = kNeverTick;
    for (const Lag& lag : lags_) {
      earliest = std::min(earliest, lag.at(start));
    }
    return earliest;
  }

 private:
  std::vector<Lag> lags_;
};

class Linker {
 public:
  Linker(const ShopContext& context, ShopModel& model)
      : context_(context),
        lags_(context.lags),
        ticks_(context.ticks),
        model_(model),
        project_(model.project),
        bounds_(model.project.activities.size()),
        last_(context.shop.parts.size()),
        joints_(context.shop.parts.size()),
        free_from_(context.shop.parts.size(), 0),
        dry_from_(context.shop.parts.size(), 0) {}

  Result<std::vector<StartBounds>> all() {
    for (std::size_t job = 0; job < context_.request.jobs.size(); ++job) {
      take_done_builds(job);
      link_builds(job, true);
    }
    for (std::size_t part = 0; part < context_.shop.parts.size(); ++part) {
      if (const auto linked = link_part(static_cast<int>(part)); !linked) {
        return pass_on(linked.error());
      }
    }
    for (std::size_t job = 0; job < context_.request.jobs.size(); ++job) {
      link_builds(job, false);
    }
    if (!context_.request.resources.finishing_apart) {
      keep_dust_off_films(context_, model_, bounds_);
    }
    return std::move(bounds_);
  }

 private:
  [[nodiscard]] StartBounds& bounds(int activity) {
    return bounds_[static_cast<std::size_t>(activity)];
  }
  [[nodiscard]] Tick length_of(int activity) const {
    return project_.activities[static_cast<std::size_t>(activity)].length;
  }
  void not_before(int activity, Tick first) {
    bounds(activity).first = std::max(bounds(activity).first, first);
  }
  void after(const std::vector<Last>& lasts, int activity) {
    for (const Last& last : lasts) {
      project_.min_lags.push_back({last.activity, activity, last.end});
    }
  }
  [[nodiscard]] Last end_of(int activity) const { return {activity, {length_of(activity), {}}}; }

  // --- A part's chain.

  /// A part while its sessions are gone through.
  struct Walk {
    int part;
    const ShopPart& asked;
    const PartChain& chain;
    const std::vector<ModelSession>& sessions;
    PieceState state;  ///< A coat of the plan has -1 - place as its step.
    int place = 0;
    std::optional<int> wetted;  ///< Place of the session that raised the grain.
    std::optional<int> sanded;  ///< Place of the last session with sanding in it.

    [[nodiscard]] const ModelSession& at(int which) const {
      return sessions[static_cast<std::size_t>(which)];
    }
    [[nodiscard]] const ModelSession& here() const { return at(place); }
    [[nodiscard]] const PlacedSession& placed() const {
      return chain.alone.sessions[static_cast<std::size_t>(place)];
    }
    [[nodiscard]] const WorkItem& work() const { return chain.works[placed().work]; }
    [[nodiscard]] bool is_wet() const {
      return std::any_of(state.last_coats.begin(), state.last_coats.end(), [](const auto& coat) {
        return coat && !coat->came_in;
      });
    }
  };

  Result<void> link_part(int part) {
    const auto index = static_cast<std::size_t>(part);
    Walk walk{part,
              context_.shop.parts[index],
              *model_.chains[index],
              model_.sessions[index],
              {},
              0,
              {},
              {}};
    walk.state.last_coats = walk.chain.alone.first_coats;
    walk.state.abraded = walk.asked.progress.abraded;
    if (model_.is_relaxed) {
      return link_relaxed(walk);
    }
    if (!walk.sessions.empty()) {
      begin_part(walk);
      after(last_[index], walk.here().activity);
    }
    hold_rack_since_log(walk);
    for (; walk.place < static_cast<int>(walk.sessions.size()); ++walk.place) {
      if (walk.place > 0) {
        after({end_of(walk.at(walk.place - 1).activity)}, walk.here().activity);
      }
      if (const auto linked = link_session(walk); !linked) {
        return linked;
      }
      hold_rack(walk);
    }
    if (!walk.sessions.empty()) {
      last_[index] = {end_of(walk.sessions.back().activity)};
    }
    films_.push_back(std::move(walk.state.last_coats));
    return {};
  }

  /// The session at hand waits until the part may be worked on at all.
  void begin_part(const Walk& walk) {
    not_before(walk.here().activity, ticks_.not_before(walk.chain.alone.open_until));
    not_before(walk.here().activity, free_from_[static_cast<std::size_t>(walk.part)]);
    if (walk.asked.earliest) {
      not_before(walk.here().activity, ticks_.not_before(*walk.asked.earliest));
    }
  }

  /// Coats wait for what was done on their own faces, and all other work for that on every face.
  Result<void> link_relaxed(Walk& walk) {
    auto& last = last_[static_cast<std::size_t>(walk.part)];
    std::vector<std::vector<Last>> on_face(walk.state.last_coats.size(), last);
    for (; walk.place < static_cast<int>(walk.sessions.size()); ++walk.place) {
      const int activity = walk.here().activity;
      if (activity < 0) {
        continue;
      }
      begin_part(walk);
      const bool is_coat = walk.work().kind == WorkItem::Kind::kCoat;
      for (const int face : is_coat ? walk.work().faces : walk.state.every_face()) {
        auto& before = on_face[static_cast<std::size_t>(face)];
        after(before, activity);
        before = {end_of(activity)};
      }
      if (const auto linked = link_session(walk); !linked) {
        return linked;
      }
      hold_rack_relaxed(walk);
    }
    last.clear();
    for (const auto& one : on_face) {
      last.insert(last.end(), one.begin(), one.end());
    }
    films_.push_back(std::move(walk.state.last_coats));
    return {};
  }

  Result<void> link_session(Walk& walk) {
    const WorkItem& work = walk.work();
    switch (work.kind) {
      case WorkItem::Kind::kCoat:
        return link_coat(walk);
      case WorkItem::Kind::kSample:
        need(walk, Stage::kDustFree, walk.state.every_face());
        break;
      case WorkItem::Kind::kSand:
        need(walk, Stage::kDustFree, walk.state.every_face());
        need(walk, Stage::kSandable, work.faces);
        break;
      case WorkItem::Kind::kFlip:
        need(walk, Stage::kHandle, walk.state.every_face());
        break;
      case WorkItem::Kind::kRubOut:
        need_rub_out(walk);
        break;
      case WorkItem::Kind::kRaiseGrain:
        link_raised_grain(walk);
        break;
    }
    if (sands(work, walk.placed())) {
      walk.sanded = walk.place;
      surface(static_cast<std::size_t>(walk.part), walk.here().activity);
    }
    if (work.kind == WorkItem::Kind::kSand) {
      for (const int face : work.faces) {
        walk.state.abraded[static_cast<std::size_t>(face)] = walk.state.on(face).has_value();
      }
    }
    return {};
  }

  /// The session at hand waits until a stage is reached by the coats on some faces.
  void need(Walk& walk, Stage stage, const std::vector<int>& faces) {
    int seen = 0;
    for (const int face : faces) {
      const auto& coat = walk.state.on(face);
      const auto timing = coat ? coat->timing(stage) : std::nullopt;
      if (timing && (seen == 0 || coat->step != seen)) {
        seen = coat->step;
        wait_for(walk.part, *coat, *timing, walk.here().activity, 0);
      }
    }
  }

  void need_rub_out(Walk& walk) {
    for (const int face : walk.work().faces) {
      const auto& coat = walk.state.on(face);
      const auto timing = coat ? rub_out_timing(*walk.work().step, *coat) : std::nullopt;
      if (timing) {
        wait_for(walk.part, *coat, *timing, walk.here().activity, 0);
      }
    }
  }

  /// @param before how long before the stage the activity may begin.
  void wait_for(
      int part, const LaidCoat& coat, const StageTiming& timing, int activity, Tick before) {
    if (coat.step >= 0) {
      const Tick opens = lags_.opens(timing, coat.gate(), coat.ended);
      not_before(activity, opens == kNeverTick ? opens : opens - before);
      return;
    }
    const ModelSession& under = session_of(part, coat);
    const Tick ended = ticks_of(under.session.wet_end);
    project_.min_lags.push_back(
        {under.activity, activity, lags_.opening(timing, coat.gate(), ended, before)});
  }

  [[nodiscard]] const ModelSession& session_of(int part, const LaidCoat& coat) const {
    return model_
        .sessions[static_cast<std::size_t>(part)][static_cast<std::size_t>(-1 - coat.step)];
  }

  void link_raised_grain(Walk& walk) {
    if (!walk.placed().cuts_grain) {
      walk.wetted = walk.place;
      return;
    }
    const StageTiming dries = raised_grain_timing();
    const int activity = walk.here().activity;
    if (walk.wetted) {
      const int wetting = walk.at(*walk.wetted).activity;
      project_.min_lags.push_back(
          {wetting, activity, lags_.opening(dries, std::nullopt, length_of(wetting), 0)});
    } else if (walk.asked.progress.wetted_at) {
      not_before(activity, lags_.opens(dries, std::nullopt, *walk.asked.progress.wetted_at));
    }
  }

  Result<void> link_coat(Walk& walk) {
    const WorkItem& work = walk.work();
    const auto options = recoat_options(work, walk.state, context_.book);
    if (!options) {
      return pass_on(options.error());
    }
    const RecoatOption& option = (*options)[walk.placed().option];
    const BenchSession& session = walk.here().session;
    const Tick applied = ticks_of(session.apply_offset);
    settle_own_dust(walk, applied);
    if (abrading_of(session) != nullptr) {
      need(walk, Stage::kSandable, work.faces);
      need(walk, Stage::kDustFree, model_.is_relaxed ? work.faces : walk.state.every_face());
      walk.sanded = model_.is_relaxed ? walk.sanded : std::optional(walk.place);
    }
    int seen = 0;
    for (std::size_t i = 0; i < option.choices.size(); ++i) {
      const RecoatChoice& choice = option.choices[i];
      if (seen == 0 || choice.coat.step != seen) {
        seen = choice.coat.step;
        if (walk.here().is_core) {
          link_openings(walk, *options, i, applied);
        } else {
          link_window(walk, choice, applied, ticks_of(session.wet_end) - applied);
        }
      }
    }
    LaidCoat laid;
    laid.product = work.product;
    laid.step = -1 - walk.place;
    set_film(laid, *work.step);
    for (const int face : work.faces) {
      walk.state.last_coats[static_cast<std::size_t>(face)] = laid;
      walk.state.abraded[static_cast<std::size_t>(face)] = false;
    }
    return {};
  }

  /// The dust of the part's own sanding settles, wherever that was done.
  void settle_own_dust(const Walk& walk, Tick applied) {
    const int activity = walk.here().activity;
    if (!walk.sanded) {
      if (const auto until = walk.asked.progress.sanded_until) {
        not_before(activity, ticks_.not_before(*until) + kSettlingTicks - applied);
      }
      return;
    }
    const ModelSession& sanding = walk.at(*walk.sanded);
    const SessionPart* abrading = abrading_of(sanding.session);
    const Tick ended = abrading == nullptr ? length_of(sanding.activity)
                                           : ticks_of(abrading->offset + abrading->length);
    project_.min_lags.push_back(
        {sanding.activity, activity, {ended + kSettlingTicks - applied, {}}});
  }

  void link_window(const Walk& walk, const RecoatChoice& choice, Tick applied, Tick stroke) {
    const int activity = walk.here().activity;
    if (choice.coat.step >= 0) {
      const WindowTicks window = lags_.window_over(choice, applied, stroke);
      not_before(activity, window.first);
      bounds(activity).last = std::min(bounds(activity).last, window.last);
      return;
    }
    const ModelSession& under = session_of(walk.part, choice.coat);
    const WindowOffsets offsets{
        ticks_of(under.session.apply_offset), ticks_of(under.session.wet_end), applied, stroke};
    const StageLags::WindowLags window = lags_.window(choice, offsets);
    project_.min_lags.push_back({under.activity, activity, window.first});
    if (window.last) {
      project_.max_lags.push_back({under.activity, activity, *window.last});
    }
  }

  /// The earliest opening over the ways to recoat. @param which of the choices of each.
  void link_openings(const Walk& walk,
                     const std::vector<RecoatOption>& options,
                     std::size_t which,
                     Tick applied) {
    const int activity = walk.here().activity;
    const LaidCoat& coat = options.front().choices[which].coat;
    if (coat.step >= 0) {
      Tick first = kNeverTick;
      for (const RecoatOption& option : options) {
        const RecoatChoice& choice = option.choices[which];
        const Tick opens = lags_.opens(choice.opening, choice.coat.gate(), choice.coat.ended);
        first = std::min(first, opens == kNeverTick ? opens : opens - applied);
      }
      not_before(activity, first);
      return;
    }
    const ModelSession& under = session_of(walk.part, coat);
    const Tick ended = ticks_of(under.session.wet_end);
    auto earliest = std::make_shared<EarliestOf>();
    for (const RecoatOption& option : options) {
      const RecoatChoice& choice = option.choices[which];
      earliest->add(lags_.opening(choice.opening, choice.coat.gate(), ended, applied));
    }
    project_.min_lags.push_back({under.activity, activity, {0, std::move(earliest)}});
  }

  // --- Racks.

  /// An activity at the plan's start, from which holds of what lay there before run.
  int origin() {
    if (!origin_) {
      origin_ = static_cast<int>(project_.activities.size());
      project_.activities.push_back({"what was done before", 0, {}, 0});
      model_.roles.push_back({});
      bounds_.push_back({0, 0, true});
    }
    return *origin_;
  }

  void hold_rack_since_log(Walk& walk) {
    if (!model_.resources.rack || !walk.is_wet()) {
      return;
    }
    Hold hold{*model_.resources.rack, walk.asked.rack_places, origin(), 0, {}, 0, {}};
    if (!walk.sessions.empty()) {
      hold.to = walk.here().activity;
    } else {
      Tick until = 0;
      for (const auto& coat : walk.state.last_coats) {
        const auto handle = coat && !coat->came_in ? coat->timing(Stage::kHandle) : std::nullopt;
        until = handle ? std::max(until, lags_.opens(*handle, coat->gate(), coat->ended)) : until;
      }
      hold.until.constant = until;
    }
    project_.holds.push_back(hold);
  }

  /// From the end of a session until the next, or until the last film may be handled.
  void hold_rack(Walk& walk) {
    if (!model_.resources.rack || !walk.is_wet()) {
      return;
    }
    const ModelSession& session = walk.here();
    const bool is_coat = walk.work().kind == WorkItem::Kind::kCoat;
    const BenchSession& alone = walk.placed().session;
    const Tick from = session.is_shared ? ticks_of(session.session.wet_end)
                      : session.is_core
                          ? ticks_of(session.session.wet_end + alone.length - alone.wet_end)
                          : length_of(session.activity);
    Hold hold{*model_.resources.rack, walk.asked.rack_places, session.activity, from, {}, 0, {}};
    if (walk.place + 1 < static_cast<int>(walk.sessions.size())) {
      const ModelSession& next = walk.at(walk.place + 1);
      hold.to = next.activity;
      hold.to_offset = ticks_of(next.session.parts.front().offset);
    } else if (is_coat) {
      const auto& coat = walk.state.on(walk.work().faces.front());
      const auto handle = coat->timing(Stage::kHandle);
      if (!handle) {
        return;
      }
      hold.until = lags_.opening(*handle, coat->gate(), ticks_of(session.session.wet_end), 0);
    } else {
      return;
    }
    project_.holds.push_back(hold);
  }

  /// Only where the plan's hold is known: the part has one face up, what lies on the rack is put on
  /// in one way, and what takes it away is laid out in one.
  void hold_rack_relaxed(Walk& walk) {
    const Product* product = walk.work().product;
    const bool has_one_stroke = product == nullptr || (!product->wipe_off && !product->mix);
    const int next = walk.place + 1;
    const bool ends_at_core =
        next < static_cast<int>(walk.sessions.size()) && walk.at(next).is_core;
    if (walk.asked.request.piece.faces != Faces::kTwo && has_one_stroke && !ends_at_core) {
      hold_rack(walk);
    }
  }

  // --- What joins the parts.

  void link_builds(std::size_t job, bool before_finish) {
    const JobRequest& asked = context_.request.jobs[job];
    for (std::size_t i = 0; i < asked.build.size(); ++i) {
      const int activity = model_.builds[job][i];
      if (asked.build[i].before_finish == before_finish && activity >= 0) {
        link_build(job, i, activity);
      }
    }
  }

  void link_build(std::size_t job, std::size_t build, int activity) {
    const JobRequest& asked = context_.request.jobs[job];
    const BuildWork& work = asked.build[build];
    if (asked.earliest) {
      not_before(activity, ticks_.not_before(*asked.earliest));
    }
    Last last = end_of(activity);
    if (work.glue != nullptr) {
      last.end =
          lags_.opening(clamp_timing(*work.glue), work.glue->at_least, length_of(activity), 0);
      if (work.at_bench && model_.resources.bench) {
        project_.holds.push_back(
            {*model_.resources.bench, 1, activity, length_of(activity), {}, 0, last.end});
      }
    }
    const std::vector<std::size_t> parts = parts_joined_by(context_.request, job, build);
    for (const std::size_t part : parts) {
      after(last_[part], activity);
      not_before(activity, free_from_[part]);
      if (!work.before_finish) {
        not_before(activity, ticks_.not_before(model_.chains[part]->alone.open_until));
        need_films(part, work.needs, activity);
      }
      last_[part] = {last};
      if (work.kind == StepKind::kSand) {
        surface(part, activity);
      }
    }
    if (work.glue != nullptr) {
      glue_joints(parts, *work.glue, activity);
    }
  }

  /// Sanding waits until the glue lines of a part have lost their water.
  void surface(std::size_t part, int activity) {
    after(joints_[part], activity);
    joints_[part].clear();  // what is sanded later comes after this
    not_before(activity, dry_from_[part]);
  }

  /// What was glued up before the plan: its clamps, and its line that is wet.
  void take_done_builds(std::size_t job) {
    const auto& build = context_.request.jobs[job].build;
    for (std::size_t i = 0; i < build.size(); ++i) {
      const BuildWork& work = build[i];
      if (!work.done_at || work.glue == nullptr) {
        continue;
      }
      const Glue& glue = *work.glue;
      const Tick off = lags_.opens(clamp_timing(glue), glue.at_least, *work.done_at);
      if (work.at_bench && model_.resources.bench && off > 0) {
        project_.holds.push_back({*model_.resources.bench, 1, origin(), 0, {}, 0, {off, {}}});
      }
      const auto surfaced = surface_timing(glue);
      for (const std::size_t part : parts_joined_by(context_.request, job, i)) {
        free_from_[part] = std::max(free_from_[part], off);
        if (surfaced) {
          dry_from_[part] =
              std::max(dry_from_[part], lags_.opens(*surfaced, glue.at_least, *work.done_at));
        }
      }
    }
  }

  void glue_joints(const std::vector<std::size_t>& parts, const Glue& glue, int activity) {
    const auto timing = surface_timing(glue);
    if (!timing) {
      return;
    }
    const Lag may_be_sanded = lags_.opening(*timing, glue.at_least, length_of(activity), 0);
    for (const std::size_t part : parts) {
      joints_[part].push_back({activity, may_be_sanded});
    }
  }

  void need_films(std::size_t part, Stage stage, int activity) {
    int seen = 0;
    for (const auto& coat : films_[part]) {
      const auto timing = coat ? coat->timing(stage) : std::nullopt;
      if (timing && (seen == 0 || coat->step != seen)) {
        seen = coat->step;
        wait_for(static_cast<int>(part), *coat, *timing, activity, 0);
      }
    }
  }

  const ShopContext& context_;
  StageLags& lags_;
  TickScale ticks_;
  ShopModel& model_;
  Project& project_;
  std::vector<StartBounds> bounds_;
  std::vector<std::vector<Last>> last_;    ///< By part.
  std::vector<std::vector<Last>> joints_;  ///< By part: glue lines that are not sanded yet.
  std::vector<Tick> free_from_;  ///< By part: clamps that were on before the plan are off.
  std::vector<Tick> dry_from_;   ///< By part: the glue line of such a joint is dry.
  std::vector<std::vector<std::optional<LaidCoat>>> films_;  ///< By part: at its end.
  std::optional<int> origin_;
};

}  // namespace

std::vector<std::size_t> parts_joined_by(const ShopRequest& request,
                                         std::size_t job,
                                         std::size_t build) {
  std::size_t first = 0;
  for (std::size_t i = 0; i < job; ++i) {
    first += request.jobs[i].parts.size();
  }
  const BuildWork& work = request.jobs[job].build[build];
  std::vector<std::size_t> parts;
  if (work.kind == StepKind::kDeliver) {
    for (std::size_t part = 0; part < request.jobs[job].parts.size(); ++part) {
      parts.push_back(first + part);
    }
    return parts;
  }
  for (const int part : work.parts) {
    parts.push_back(first + static_cast<std::size_t>(part));
  }
  return parts;
}

Result<std::vector<StartBounds>> link_shop(const ShopContext& context, ShopModel& model) {
  return Linker(context, model).all();
}

}  // namespace coatwright
