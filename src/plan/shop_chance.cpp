#include "plan/shop_chance.h"

#include <algorithm>
#include <utility>

#include "plan/kept_starts.h"

namespace coatwright {
namespace {

constexpr double kChanceGrain = 1.0 / 32.0;
/// Nodes of one short search, by activity.
constexpr std::int64_t kNodes = 4;

/// Which pieces a plan at another confidence still has in time.
class OtherConfidence {
 public:
  OtherConfidence(const ShopRequest& request,
                  const FoundShop& found,
                  const RecipeBook& book,
                  const AirRecord& air)
      : found_(found), request_(request), book_(book), air_(air) {}

  /// @return by job.
  std::vector<bool> in_time_at(double confidence) {
    request_.confidence = confidence;
    std::vector<bool> none(request_.jobs.size(), false);
    DryingClocks clocks(air_, first_moment(request_));
    const WaitRule rule{normal_deviate(confidence), request_.horizon};
    const TickScale ticks(request_.from);
    StageLags lags(clocks, rule, confidence, ticks);
    AirForWork for_work(clocks, rule, ticks);
    const auto shop = parts_of(request_, book_, clocks);
    if (!shop) {
      return none;
    }
    const ShopContext context{request_, *shop, book_, clocks, lags, for_work, ticks};
    auto chains = chains_of(context);
    const Time last = ticks.time(found_.model.project.horizon);
    // A piece that finds no place is left out, so that the others show their chance.
    for (std::size_t tries = 0; chains && tries <= request_.jobs.size(); ++tries) {
      auto model = compile(context, *chains, guns_between(*chains), last);
      if (!model) {
        return none;
      }
      const SearchResult solved = solve_from_found(*model);
      if (solved.schedule) {
        return in_time(context, *model, *solved.schedule);
      }
      if (!solved.no_place || !leave_out(*model, solved.no_place->activity, context, *chains)) {
        return none;
      }
    }
    return none;
  }

 private:
  [[nodiscard]] std::optional<PartChains> chains_of(const ShopContext& context) const {
    PartChains chains;
    for (std::size_t part = 0; part < context.shop.parts.size(); ++part) {
      const Chain& planned = found_.model.chains[part]->alone;
      auto chain =
          chain_of(context.shop.parts[part], found_.choice.parts[part], book_, context.clocks);
      if (!chain) {
        return std::nullopt;
      }
      if (planned.stopped_by) {
        chain->alone.stopped_by = planned.stopped_by;
        if (planned.sessions.empty()) {
          chain->alone.sessions.clear();
        }
      }
      chains.push_back(std::make_shared<PartChain>(std::move(*chain)));
    }
    return chains;
  }

  /// The shared sessions of the plan between those that are still there: at another confidence a
  /// part may come less far.
  [[nodiscard]] std::vector<GunSession> guns_between(const PartChains& chains) const {
    std::vector<GunSession> guns;
    for (GunSession gun : found_.choice.guns) {
      std::erase_if(gun, [&](const SessionKey& key) {
        const auto& sessions = chains[static_cast<std::size_t>(key.part)]->alone.sessions;
        return static_cast<std::size_t>(key.place) >= sessions.size();
      });
      if (gun.size() > 1) {
        guns.push_back(std::move(gun));
      }
    }
    return guns;
  }

  [[nodiscard]] SearchResult solve_from_found(const ShopModel& model) const {
    const StartTimes start_from = carried_over(found_.model, found_.schedule, model);
    const auto count = static_cast<std::int64_t>(model.project.activities.size());
    return solve(model.project, {kNodes * count, request_.seed, {}}, &start_from);
  }

  /// @return false: the job of the activity is left out already.
  [[nodiscard]] static bool leave_out(const ShopModel& model,
                                      int activity,
                                      const ShopContext& context,
                                      PartChains& chains) {
    const ActivityRole& role = model.roles[static_cast<std::size_t>(activity)];
    const auto job_of = [&](int part) {
      return context.shop.parts[static_cast<std::size_t>(part)].job;
    };
    if (!role.job && role.sessions.empty()) {
      return false;
    }
    const int job = role.job ? *role.job : job_of(role.sessions.front().part);
    bool any = false;
    for (std::size_t part = 0; part < chains.size(); ++part) {
      const Chain& chain = chains[part]->alone;
      if (context.shop.parts[part].job == job && (!chain.sessions.empty() || !chain.stopped_by)) {
        PartChain less = *chains[part];
        less.alone.sessions.clear();
        less.alone.stopped_by = "it finds no place";
        chains[part] = std::make_shared<PartChain>(std::move(less));
        any = true;
      }
    }
    return any;
  }

  [[nodiscard]] static std::vector<bool> in_time(const ShopContext& context,
                                                 const ShopModel& model,
                                                 const StartTimes& schedule) {
    std::vector<bool> in_time;
    for (const Job& job : model.project.jobs) {
      in_time.push_back(std::all_of(job.activities.begin(), job.activities.end(), [&](int which) {
        const auto activity = static_cast<std::size_t>(which);
        return schedule.starts[activity] + model.project.activities[activity].length <= job.due;
      }));
    }
    for (std::size_t part = 0; part < model.chains.size(); ++part) {
      if (model.chains[part]->alone.stopped_by) {
        in_time[static_cast<std::size_t>(context.shop.parts[part].job)] = false;
      }
    }
    for (std::size_t job = 0; job < model.builds.size(); ++job) {
      const auto& asked = context.request.jobs[job].build;
      for (std::size_t i = 0; i < asked.size(); ++i) {
        in_time[job] = in_time[job] && (asked[i].done_at || model.builds[job][i] >= 0);
      }
    }
    return in_time;
  }

  const FoundShop& found_;
  ShopRequest request_;
  const RecipeBook& book_;
  const AirRecord& air_;
};

/// What was tried, and which pieces were in time then.
class Tried {
 public:
  void add(double confidence, std::vector<bool> in_time) {
    tried_.emplace_back(confidence, std::move(in_time));
  }

  /// The highest confidence tried that a test says yes to, and the lowest above it.
  struct Bracket {
    double sure = 0.0;
    double unsure = 1.0;
  };
  template <class Is>
  [[nodiscard]] Bracket bracket(Is is_in_time) const {
    Bracket bracket;
    for (const auto& [confidence, in_time] : tried_) {
      if (is_in_time(in_time)) {
        bracket.sure = std::max(bracket.sure, confidence);
      }
    }
    for (const auto& [confidence, in_time] : tried_) {
      if (confidence > bracket.sure) {
        bracket.unsure = std::min(bracket.unsure, confidence);
      }
    }
    return bracket;
  }

 private:
  std::vector<std::pair<double, std::vector<bool>>> tried_;
};

}  // namespace

ShopChances chances_by_dates(const ShopRequest& request,
                             const FoundShop& found,
                             const std::vector<bool>& in_time,
                             const RecipeBook& book,
                             const AirRecord& air,
                             const std::function<bool()>& stop) {
  OtherConfidence other(request, found, book, air);
  Tried tried;
  tried.add(request.confidence, in_time);
  const auto of_all = [&] {
    return tried.bracket([](const std::vector<bool>& one) {
      return std::all_of(one.begin(), one.end(), [](bool is) { return is; });
    });
  };
  const auto of_job = [&](std::size_t job) {
    return tried.bracket([job](const std::vector<bool>& one) { return one[job]; });
  };
  const auto& ends = found.written.ends;
  const bool all_end =
      std::all_of(ends.begin(), ends.end(), [](const auto& end) { return end.has_value(); });
  // Which question is asked next: the first whose answer is not near enough.
  const auto next = [&]() -> std::optional<double> {
    Tried::Bracket widest = all_end ? of_all() : Tried::Bracket{0.0, 0.0};
    for (std::size_t job = 0; job < request.jobs.size(); ++job) {
      const Tried::Bracket one =
          ends[job] && request.jobs[job].due ? of_job(job) : Tried::Bracket{1.0, 1.0};
      widest = one.unsure - one.sure > widest.unsure - widest.sure ? one : widest;
    }
    return widest.unsure - widest.sure > kChanceGrain
               ? std::optional((widest.sure + widest.unsure) / 2.0)
               : std::nullopt;
  };
  for (auto confidence = next(); confidence && !(stop && stop()); confidence = next()) {
    tried.add(*confidence, other.in_time_at(*confidence));
  }
  ShopChances chances;
  chances.all = all_end ? of_all().sure : 0.0;
  for (std::size_t job = 0; job < request.jobs.size(); ++job) {
    const bool has_date = request.jobs[job].due.has_value();
    chances.by_job.push_back(!ends[job] ? 0.0 : has_date ? of_job(job).sure : 1.0);
  }
  return chances;
}

}  // namespace coatwright
