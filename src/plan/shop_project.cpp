#include "plan/shop_project.h"

#include <algorithm>
#include <cmath>

#include "plan/allowed_starts.h"
#include "plan/shop_links.h"

namespace coatwright {
namespace {

using std::chrono::seconds;

bool is_in_booth(const SessionPart& part, const WorkItem& work) {
  return work.step != nullptr && work.product != nullptr && work.step->method == Method::kSpray &&
         (part.kind == StepKind::kApply || part.kind == StepKind::kCleanGun);
}

/// Writes the project: activities first, then what links them, then when each may start.
class Compiler {
 public:
  Compiler(const ShopContext& context, PartChains chains, Time last)
      : context_(context),
        openings_(openings_of(context.request.hours)),
        model_{context.ticks, {}, std::move(chains), {}, {}, {}, {}, {}, {}, false},
        asked_until_(grain_down(context.ticks.not_after(last))) {
    model_.project.grain = kGrainTicks;
    model_.project.horizon = asked_until_;
  }

  /// What all choices have in common.
  Result<ShopModel> relaxed(const std::vector<std::vector<PartChain>>& alone) {
    model_.is_relaxed = true;
    model_.project.grain = 1;
    model_.project.horizon = context_.ticks.not_after(context_.request.horizon);
    alone_ = &alone;
    return all({});
  }

  Result<ShopModel> all(const std::vector<GunSession>& guns) {
    add_resources();
    for (const auto& chain : model_.chains) {
      if (chain->alone.stopped_by) {
        model_.stopped_by.push_back(*chain->alone.stopped_by);
      }
    }
    if (const auto added = add_sessions(guns); !added) {
      return pass_on(added.error());
    }
    add_builds();
    auto bounds = link_shop(context_, model_);
    if (!bounds) {
      return pass_on(bounds.error());
    }
    wait_for_finishing(*bounds);
    add_start_sets(*bounds);
    add_jobs();
    return std::move(model_);
  }

 private:
  [[nodiscard]] const WorkItem& work_of(const SessionKey& key) const {
    const PartChain& chain = *model_.chains[static_cast<std::size_t>(key.part)];
    return chain.works[chain.alone.sessions[static_cast<std::size_t>(key.place)].work];
  }
  [[nodiscard]] const ModelSession& session_of(const SessionKey& key) const {
    return model_.sessions[static_cast<std::size_t>(key.part)][static_cast<std::size_t>(key.place)];
  }

  int add_resource(const char* name, std::vector<CapacityStep> capacity) {
    model_.project.resources.push_back({name, std::move(capacity)});
    return static_cast<int>(model_.project.resources.size()) - 1;
  }

  void add_resources() {
    const ShopResources& has = context_.request.resources;
    model_.resources.people = add_resource(
        "people", people_over_time(context_.request.hours, context_.shop.busy, context_.ticks));
    const auto add_if_known = [&](const char* name, std::optional<int> count) {
      return count ? std::optional(add_resource(name, {{0, *count}})) : std::nullopt;
    };
    model_.resources.spray = add_if_known("spray places", has.spray_places);
    model_.resources.rack = add_if_known("rack places", has.rack_places);
    model_.resources.bench = add_if_known("benches", has.benches);
  }

  int add_activity(std::string name, Tick length, int people, ActivityRole role) {
    Activity activity;
    activity.name = std::move(name);
    activity.length = length;
    activity.demands.push_back({model_.resources.people, people, 0, length});
    model_.project.activities.push_back(std::move(activity));
    model_.roles.push_back(std::move(role));
    return static_cast<int>(model_.project.activities.size()) - 1;
  }

  [[nodiscard]] std::string name_of_session(const SessionKey& key) const {
    const ShopPart& part = context_.shop.parts[static_cast<std::size_t>(key.part)];
    return part.request.piece.name + " " + part.name + " " + std::to_string(key.place + 1);
  }

  Result<void> add_sessions(const std::vector<GunSession>& guns) {
    for (std::size_t part = 0; part < model_.chains.size(); ++part) {
      std::vector<ModelSession> sessions;
      for (const PlacedSession& placed : model_.chains[part]->alone.sessions) {
        const WorkItem& work = model_.chains[part]->works[placed.work];
        if (model_.is_relaxed && has_layouts(placed, work)) {
          auto core = core_of(part, placed, work);
          if (!core) {
            return pass_on(core.error());
          }
          sessions.push_back({-1, std::move(*core), false, true});
        } else {
          sessions.push_back({-1, placed.session, false, false});
        }
      }
      model_.sessions.push_back(std::move(sessions));
    }
    for (const GunSession& gun : guns) {
      add_gun_session(gun);
    }
    for (std::size_t part = 0; part < model_.sessions.size(); ++part) {
      for (std::size_t place = 0; place < model_.sessions[part].size(); ++place) {
        const SessionKey key{static_cast<int>(part), static_cast<int>(place)};
        const bool is_left_out = model_.is_relaxed && work_of(key).kind == WorkItem::Kind::kFlip;
        if (model_.sessions[part][place].activity < 0 && !is_left_out) {
          add_session_activity({key});
        }
      }
    }
    return {};
  }

  /// Whether a session may also be laid out in another way.
  [[nodiscard]] static bool has_layouts(const PlacedSession& placed, const WorkItem& work) {
    return work.kind == WorkItem::Kind::kCoat &&
           (placed.options > 1 || work.product->wipe_off || work.product->mix || may_share(work));
  }

  /// What all ways to lay a coat's session out have: in one section and batch, without an abrading
  /// that another way to recoat may spare, and without what another session may do for it.
  Result<BenchSession> core_of(std::size_t part,
                               const PlacedSession& placed,
                               const WorkItem& work) const {
    constexpr std::chrono::hours kUnlimited{24 * 365};
    const auto times = context_.book.working_times();
    if (!times) {
      return pass_on(times.error());
    }
    const auto& parts = placed.session.parts;
    const auto abrading = std::find_if(
        parts.begin(), parts.end(), [](const auto& one) { return one.kind == StepKind::kAbrade; });
    const bool must_abrade = placed.options == 1 && abrading != parts.end();
    auto core = SessionPlanner(context_.shop.parts[part].request, **times)
                    .coat(work, must_abrade ? abrading->grit : "", {kUnlimited, seconds(0)});
    if (!core || !may_share(work)) {
      return core;
    }
    std::erase_if(core->parts, [](const SessionPart& one) { return one.kind != StepKind::kApply; });
    for (SessionPart& one : core->parts) {
      one.offset -= core->apply_offset;
    }
    core->wet_end -= core->apply_offset;
    core->length = core->wet_end;
    core->apply_offset = seconds(0);
    return core;
  }

  void add_gun_session(const GunSession& gun) {
    std::vector<BenchSession> alone;
    for (const SessionKey& key : gun) {
      alone.push_back(session_of(key).session);
    }
    const std::vector<BenchSession> shared = share_session(alone);
    for (std::size_t i = 0; i < gun.size(); ++i) {
      ModelSession& session = model_.sessions[static_cast<std::size_t>(gun[i].part)]
                                             [static_cast<std::size_t>(gun[i].place)];
      session.session = shared[i];
      session.is_shared = true;
    }
    add_session_activity(gun);
  }

  /// The activity of one session, or of one that several share.
  void add_session_activity(const GunSession& keys) {
    const Tick length = ticks_of(session_of(keys.front()).session.length);
    const int activity =
        add_activity(name_of_session(keys.front()), length, 1, {keys, std::nullopt, 0});
    struct Use {
      Tick from;
      bool booth;
    };
    std::vector<Use> uses;
    for (const SessionKey& key : keys) {
      for (const SessionPart& part : session_of(key).session.parts) {
        uses.push_back({ticks_of(part.offset), is_in_booth(part, work_of(key))});
      }
      model_.sessions[static_cast<std::size_t>(key.part)][static_cast<std::size_t>(key.place)]
          .activity = activity;
    }
    std::stable_sort(
        uses.begin(), uses.end(), [](const Use& a, const Use& b) { return a.from < b.from; });
    for (std::size_t i = 0; i < uses.size();) {
      std::size_t next = i;
      while (next < uses.size() && uses[next].booth == uses[i].booth) {
        ++next;
      }
      const auto resource = uses[i].booth ? model_.resources.spray : model_.resources.bench;
      const Tick until = next < uses.size() ? uses[next].from : length;
      if (resource && uses[i].from < until) {
        model_.project.activities.back().demands.push_back({*resource, 1, uses[i].from, until});
      }
      i = next;
    }
  }

  /// Whether a part of a job comes to no end, so that it cannot be joined either.
  [[nodiscard]] bool is_stopped(int job) const {
    for (std::size_t i = 0; i < model_.chains.size(); ++i) {
      if (context_.shop.parts[i].job == job && model_.chains[i]->alone.stopped_by) {
        return true;
      }
    }
    return false;
  }

  /// Whether nothing of a job is planned.
  [[nodiscard]] bool is_left_out(int job) const {
    for (std::size_t i = 0; i < model_.chains.size(); ++i) {
      const Chain& chain = model_.chains[i]->alone;
      if (context_.shop.parts[i].job == job && (!chain.stopped_by || !chain.sessions.empty())) {
        return false;
      }
    }
    return true;
  }

  void add_builds() {
    for (std::size_t job = 0; job < context_.request.jobs.size(); ++job) {
      std::vector<int> activities;
      const JobRequest& asked = context_.request.jobs[job];
      for (std::size_t i = 0; i < asked.build.size(); ++i) {
        const BuildWork& work = asked.build[i];
        if (work.done_at || is_left_out(static_cast<int>(job)) ||
            (!work.before_finish && is_stopped(static_cast<int>(job)))) {
          activities.push_back(-1);
          continue;
        }
        const Tick length = std::max(1, ticks_of(span_of(work)));
        const int activity = add_activity(asked.name + " " + work.name,
                                          length,
                                          work.people,
                                          {{}, static_cast<int>(job), static_cast<int>(i)});
        if (work.at_bench && model_.resources.bench) {
          model_.project.activities.back().demands.push_back(
              {*model_.resources.bench, 1, 0, length});
        }
        activities.push_back(activity);
      }
      model_.builds.push_back(std::move(activities));
    }
  }

  /// Of a relaxed project: what follows the finishing of a part does not begin before that can end.
  void wait_for_finishing(std::vector<StartBounds>& bounds) const {
    for (std::size_t job = 0; alone_ != nullptr && job < model_.builds.size(); ++job) {
      for (std::size_t i = 0; i < model_.builds[job].size(); ++i) {
        const int activity = model_.builds[job][i];
        const BuildWork& work = context_.request.jobs[job].build[i];
        if (activity < 0 || work.before_finish) {
          continue;
        }
        Tick& first = bounds[static_cast<std::size_t>(activity)].first;
        for (const std::size_t part : parts_joined_by(context_.request, job, i)) {
          first = std::max(first, least_ready(part, work.needs));
        }
      }
    }
  }

  /// When a part's films come to a stage at the earliest, in the order of turning it over that is
  /// the best for that.
  [[nodiscard]] Tick least_ready(std::size_t part, Stage stage) const {
    Tick least = kNeverTick;
    for (const PartChain& one : (*alone_)[part]) {
      const Chain& chain = one.alone;
      Tick ready = chain.finish ? context_.ticks.not_before(*chain.finish) : kNeverTick;
      for (const auto& coat : chain.last_coats) {
        const auto timing = coat ? coat->timing(stage) : std::nullopt;
        if (timing) {
          ready = std::max(ready, context_.lags.opens(*timing, coat->gate(), coat->ended));
        }
      }
      least = std::min(least, ready);
    }
    return least;
  }

  /// Every minute in the shop's hours.
  [[nodiscard]] StartSet whenever_open(Tick length, const StartBounds& bounds) const {
    StartSet set;
    for (const Interval& opening : openings_) {
      const Tick first = std::max({0, bounds.first, context_.ticks.not_before(opening.start)});
      const Tick last = std::min(
          {bounds.last, model_.project.horizon, context_.ticks.not_after(opening.end) - length});
      if (first <= last) {
        set.spans.push_back({first, last});
      }
    }
    return set;
  }

  [[nodiscard]] bool is_core(const ActivityRole& role) const {
    return !role.sessions.empty() && session_of(role.sessions.front()).is_core;
  }

  void add_start_sets(const std::vector<StartBounds>& bounds) {
    for (std::size_t i = 0; i < model_.project.activities.size(); ++i) {
      Activity& activity = model_.project.activities[i];
      model_.first_starts.push_back(bounds[i].first);
      if (is_core(model_.roles[i])) {
        activity.starts = static_cast<int>(model_.project.start_sets.size());
        model_.project.start_sets.push_back(whenever_open(activity.length, bounds[i]));
        continue;
      }
      StartRule rule{activity.length,
                     bounds[i].first,
                     std::min(bounds[i].last, model_.project.horizon),
                     allowed_by_air(model_.roles[i])};
      activity.starts = static_cast<int>(model_.project.start_sets.size());
      model_.project.start_sets.push_back(bounds[i].is_fixed
                                              ? StartSet{{{bounds[i].first, bounds[i].first}}}
                                              : starts_in(openings_, rule, context_.ticks));
    }
  }

  std::function<bool(Tick)> allowed_by_air(const ActivityRole& role) {
    if (role.job) {
      const BuildWork& work = context_.request.jobs[static_cast<std::size_t>(*role.job)]
                                  .build[static_cast<std::size_t>(role.build)];
      return work.glue == nullptr ? std::function<bool(Tick)>() : allowed_to_glue(work);
    }
    std::vector<std::pair<LaidCoat, const BenchSession*>> coats;
    for (const SessionKey& key : role.sessions) {
      const WorkItem& work = work_of(key);
      if (work.kind == WorkItem::Kind::kCoat) {
        LaidCoat coat;
        coat.product = work.product;
        set_film(coat, *work.step);
        coats.emplace_back(coat, &session_of(key).session);
      }
    }
    if (coats.empty()) {
      return {};
    }
    return [this, coats](Tick start) {
      return start > asked_until_ || std::all_of(coats.begin(), coats.end(), [&](const auto& one) {
               return context_.air.allows(one.first, *one.second, start);
             });
    };
  }

  std::function<bool(Tick)> allowed_to_glue(const BuildWork& work) {
    const Glue* glue = work.glue;
    const seconds spread = span_of(work);
    const Lag clamped =
        context_.lags.opening(clamp_timing(*glue), glue->at_least, ticks_of(spread), 0);
    // Work longer than the open time is spread and closed joint by joint; the plan says so.
    const bool in_one_go = fits_open_time(work);
    return [this, glue, spread, clamped, in_one_go](Tick start) {
      return start > asked_until_ ||
             (context_.air.allows(*glue, start, clamped.at(start)) &&
              (!in_one_go || spread < context_.air.open_time(*glue, start)));
    };
  }

  void add_jobs() {
    for (std::size_t i = 0; i < context_.request.jobs.size(); ++i) {
      const JobRequest& asked = context_.request.jobs[i];
      Job job;
      job.name = asked.name;
      job.due = asked.due ? context_.ticks.not_after(*asked.due) : kNeverTick;
      job.weight = std::max(1, static_cast<int>(std::lround(asked.weight * kWeightScale)));
      std::copy_if(model_.builds[i].begin(),
                   model_.builds[i].end(),
                   std::back_inserter(job.activities),
                   [](int activity) { return activity >= 0; });
      for (std::size_t part = 0; part < model_.sessions.size(); ++part) {
        if (context_.shop.parts[part].job != static_cast<int>(i)) {
          continue;
        }
        for (const ModelSession& session : model_.sessions[part]) {
          if (session.activity >= 0) {
            job.activities.push_back(session.activity);
          }
        }
      }
      model_.project.jobs.push_back(std::move(job));
    }
  }

  const ShopContext& context_;
  std::vector<Interval> openings_;
  ShopModel model_;
  Tick asked_until_;  ///< The air's limits are asked for starts up to it.
  const std::vector<std::vector<PartChain>>* alone_ = nullptr;  ///< Of a relaxed project.
};

}  // namespace

Result<ShopModel> compile(const ShopContext& context,
                          PartChains chains,
                          const std::vector<GunSession>& guns,
                          Time last) {
  return Compiler(context, std::move(chains), last).all(guns);
}

Result<ShopModel> relaxed(const ShopContext& context,
                          PartChains chains,
                          const std::vector<std::vector<PartChain>>& alone,
                          Time asked_until) {
  return Compiler(context, std::move(chains), asked_until).relaxed(alone);
}

std::vector<BenchSession> share_session(const std::vector<BenchSession>& sessions) {
  std::vector<BenchSession> shared(sessions.size());
  seconds now(0);
  const auto take = [&](std::size_t which, StepKind kind) {
    for (SessionPart part : sessions[which].parts) {
      if (part.kind == kind) {
        part.offset = now;
        now += part.length;
        shared[which].parts.push_back(std::move(part));
      }
    }
  };
  const auto take_all = [&](StepKind kind) {
    for (std::size_t i = 0; i < sessions.size(); ++i) {
      take(i, kind);
    }
  };
  take_all(StepKind::kAbrade);
  const seconds settled = now > seconds(0) ? now + SessionPlanner::kSettling : now;
  take_all(StepKind::kClean);
  take(0, StepKind::kMix);
  now = std::max(now, settled);
  for (std::size_t i = 0; i < sessions.size(); ++i) {
    shared[i].apply_offset = now;
    take(i, StepKind::kApply);
    shared[i].wet_end = now;
  }
  take_all(StepKind::kRags);
  take(0, StepKind::kCleanGun);
  for (BenchSession& session : shared) {
    session.length = now;
  }
  return shared;
}

std::string parts_in_words(const JobRequest& job, const BuildWork& work) {
  if (work.parts.size() == job.parts.size() && job.parts.size() > 1) {
    return "all";
  }
  std::string names;
  for (const int part : work.parts) {
    names += (names.empty() ? "" : ", ") + job.parts[static_cast<std::size_t>(part)].name;
  }
  return names;
}

bool sands(const WorkItem& work, const PlacedSession& placed) {
  return work.kind == WorkItem::Kind::kSand || placed.cuts_grain;
}

bool may_share(const WorkItem& work) {
  return work.kind == WorkItem::Kind::kCoat && work.step->method == Method::kSpray &&
         !work.product->mix && work.wash == nullptr;
}

}  // namespace coatwright
