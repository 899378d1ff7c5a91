#include "plan/shop_project.h"

#include <algorithm>

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
        model_{context.ticks, {}, std::move(chains), {}, {}, {}, {}, {}} {
    model_.project.grain = kGrainTicks;
    model_.project.horizon = grain_down(context.ticks.not_after(last));
  }

  Result<ShopModel> all(const std::vector<GunSession>& guns) {
    add_resources();
    for (const auto& chain : model_.chains) {
      if (chain->alone.stopped_by) {
        model_.stopped_by.push_back(*chain->alone.stopped_by);
      }
    }
    add_sessions(guns);
    add_builds();
    auto bounds = link_shop(context_, model_);
    if (!bounds) {
      return pass_on(bounds.error());
    }
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

  void add_sessions(const std::vector<GunSession>& guns) {
    for (std::size_t part = 0; part < model_.chains.size(); ++part) {
      std::vector<ModelSession> sessions;
      for (const PlacedSession& placed : model_.chains[part]->alone.sessions) {
        sessions.push_back({-1, placed.session, false});
      }
      model_.sessions.push_back(std::move(sessions));
    }
    for (const GunSession& gun : guns) {
      add_gun_session(gun);
    }
    for (std::size_t part = 0; part < model_.sessions.size(); ++part) {
      for (std::size_t place = 0; place < model_.sessions[part].size(); ++place) {
        const SessionKey key{static_cast<int>(part), static_cast<int>(place)};
        if (model_.sessions[part][place].activity < 0) {
          add_session_activity({key});
        }
      }
    }
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
        if (is_left_out(static_cast<int>(job)) ||
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

  void add_start_sets(const std::vector<StartBounds>& bounds) {
    for (std::size_t i = 0; i < model_.project.activities.size(); ++i) {
      Activity& activity = model_.project.activities[i];
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
      return std::all_of(coats.begin(), coats.end(), [&](const auto& one) {
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
      return context_.air.allows(*glue, start, clamped.at(start)) &&
             (!in_one_go || spread < context_.air.open_time(*glue, start));
    };
  }

  void add_jobs() {
    for (std::size_t i = 0; i < context_.request.jobs.size(); ++i) {
      const JobRequest& asked = context_.request.jobs[i];
      Job job;
      job.name = asked.name;
      job.due = asked.due ? context_.ticks.not_after(*asked.due) : kNeverTick;
      job.weight = std::max(1, static_cast<int>(asked.weight * kWeightScale + 0.5));
      std::copy_if(model_.builds[i].begin(),
                   model_.builds[i].end(),
                   std::back_inserter(job.activities),
                   [](int activity) { return activity >= 0; });
      for (std::size_t part = 0; part < model_.sessions.size(); ++part) {
        if (context_.shop.parts[part].job != static_cast<int>(i)) {
          continue;
        }
        for (const ModelSession& session : model_.sessions[part]) {
          job.activities.push_back(session.activity);
        }
      }
      model_.project.jobs.push_back(std::move(job));
    }
  }

  static constexpr double kWeightScale = 100.0;

  const ShopContext& context_;
  std::vector<Interval> openings_;
  ShopModel model_;
};

}  // namespace

Result<ShopModel> compile(const ShopContext& context,
                          PartChains chains,
                          const std::vector<GunSession>& guns,
                          Time last) {
  return Compiler(context, std::move(chains), last).all(guns);
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

bool may_share(const WorkItem& work) {
  return work.kind == WorkItem::Kind::kCoat && work.step->method == Method::kSpray &&
         !work.product->mix && work.wash == nullptr;
}

}  // namespace coatwright
