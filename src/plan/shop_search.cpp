#include "plan/shop_search.h"

#include <algorithm>
#include <set>
#include <tuple>

#include "plan/drawn_together.h"
#include "plan/gun_sessions.h"
#include "plan/interruptions.h"
#include "plan/kept_starts.h"
#include "plan/no_choice.h"
#include "plan/no_place.h"

namespace coatwright {
namespace {

/// How often a start that turns out not to hold is taken out and the search gone on with.
constexpr int kMostCuts = 40;
/// How often a window that no schedule meets is replaced by abrading, or a piece left out.
constexpr int kMostSwitches = 16;
/// How many other orders of turning over and shared sessions are tried.
constexpr int kMostOrders = 6;
constexpr int kMostGuns = 8;
/// Shares of the effort.
constexpr std::int64_t kForFirst = 2;  ///< A half.
constexpr std::int64_t kForTry = 24;
/// What is looked at beyond the need of the longest part alone, at first.
constexpr std::chrono::hours kSlack{24 * 7};

/// What a search is begun with.
struct Candidate {
  ShopChoice choice;
  PartChains chains;
};

/// Why a candidate has no schedule.
struct Failure {
  std::vector<int> activities;  ///< Those to blame, first of all the one that found no place.
  ShopModel model;
};

class ShopSearch {
 public:
  ShopSearch(const ShopContext& context, const SearchWatch& watch, const Plan* before)
      : context_(context), watch_(watch), before_(before), left_(context.request.effort) {}

  Result<ShopSearchResult> run() {
    auto candidate = first_candidate();
    if (!candidate) {
      return pass_on(candidate.error());
    }
    auto found = find_any(std::move(*candidate));
    if (!found) {
      return pass_on(found.error());
    }
    if (*found && !is_enough()) {
      if (const auto better = improve(); !better) {
        return pass_on(better.error());
      }
    }
    result_.nodes = context_.request.effort - std::max<std::int64_t>(0, left_);
    return std::move(result_);
  }

 private:
  Result<Candidate> first_candidate() const {
    Candidate candidate;
    for (const ShopPart& part : context_.shop.parts) {
      const auto order = before_ == nullptr
                             ? std::nullopt
                             : kept_order(part, context_.book, context_.clocks, *before_);
      auto best = best_choice(part, context_.book, context_.clocks, order);
      if (!best) {
        return pass_on(best.error());
      }
      candidate.choice.parts.push_back(std::move(best->choice));
      candidate.chains.push_back(std::make_shared<PartChain>(std::move(best->chain)));
    }
    return candidate;
  }

  /// A coat whose window cannot be met in the shop is abraded first; then a piece that finds no
  /// place is left out.
  Result<bool> find_any(Candidate candidate) {
    for (int i = 0; i < kMostSwitches && !is_stopped(); ++i) {
      std::optional<Failure> failure;
      for (const Time last : horizons(candidate)) {
        failure.reset();
        const std::int64_t nodes =
            std::max<std::int64_t>(1, context_.request.effort / (i == 0 ? kForFirst : kForTry));
        if (const auto tried = search(candidate, last, nodes, failure); !tried) {
          return pass_on(tried.error());
        }
        if (result_.found) {
          return true;
        }
      }
      if (!failure) {
        return false;
      }
      const auto changed = give_way(*failure, candidate);
      if (!changed) {
        return pass_on(changed.error());
      }
      if (!*changed) {
        return false;
      }
    }
    return false;
  }

  [[nodiscard]] bool is_stopped() const { return watch_.stop && watch_.stop(); }
  [[nodiscard]] bool is_enough() const {
    return context_.request.only_dates && result_.found->cost.lateness == 0;
  }

  /// Until when starts are looked at: first a while longer than the longest part alone, then all.
  [[nodiscard]] std::vector<Time> horizons(const Candidate& candidate) const {
    const ShopRequest& request = context_.request;
    Time need = request.from;
    for (const JobRequest& job : request.jobs) {
      need = std::max(need, job.due.value_or(need));
    }
    for (const auto& chain : candidate.chains) {
      const Time end = chain->alone.finish.value_or(need);
      need = std::max(need, end + (end - request.from));
    }
    const Time first = need + kSlack;
    return first < request.horizon ? std::vector<Time>{first, request.horizon}
                                   : std::vector<Time>{request.horizon};
  }

  /// One search by a candidate, until what it finds can be written. Keeps what is better.
  Result<void> search(const Candidate& candidate,
                      Time last,
                      std::int64_t nodes,
                      std::optional<Failure>& failure) {
    auto model = compile(context_, candidate.chains, candidate.choice.guns, last);
    if (!model) {
      return pass_on(model.error());
    }
    if (before_ == nullptr) {
      return search_model(candidate, std::move(*model), nodes, failure, Rank::kCost);
    }
    if (const auto tried = search_kept(candidate, *model, nodes / 2); !tried) {
      return tried;
    }
    return search_model(candidate, std::move(*model), nodes / 2, failure, Rank::kLateness);
  }

  /// All pieces stay where they were; where that cannot be, the one to blame is put off, then the
  /// next.
  Result<void> search_kept(const Candidate& candidate, const ShopModel& model, std::int64_t nodes) {
    const auto kept = kept_starts(context_, model, *before_);
    std::vector<bool> stays(context_.request.jobs.size(), true);
    for (std::size_t tries = 0; tries <= stays.size(); ++tries) {
      ShopModel held = model;
      hold_to(kept, stays, held.project);
      std::optional<Failure> failure;
      const auto share = static_cast<std::int64_t>(stays.size() + 1);
      if (const auto tried =
              search_model(candidate, std::move(held), nodes / share + 1, failure, Rank::kLateness);
          !tried || !failure) {
        return tried;
      }
      const auto blamed = blamed_job(*failure);
      auto moving = stays.end();
      if (blamed && stays[static_cast<std::size_t>(*blamed)]) {
        moving = stays.begin() + *blamed;
      } else {
        moving = std::find(stays.begin(), stays.end(), true);
      }
      if (moving == stays.end()) {
        break;
      }
      *moving = false;
    }
    return {};
  }

  /// The job of the activity that found no place.
  [[nodiscard]] std::optional<int> blamed_job(const Failure& failure) const {
    if (failure.activities.empty()) {
      return std::nullopt;
    }
    const ActivityRole& role =
        failure.model.roles[static_cast<std::size_t>(failure.activities.front())];
    return role.sessions.empty()
               ? role.job
               : std::optional(
                     context_.shop.parts[static_cast<std::size_t>(role.sessions.front().part)].job);
  }

  /// By what a plan replaces the one that is there.
  enum class Rank { kCost, kLateness };

  Result<void> search_model(const Candidate& candidate,
                            ShopModel model,
                            std::int64_t nodes,
                            std::optional<Failure>& failure,
                            Rank rank) {
    std::optional<StartTimes> start_from;
    if (result_.found) {
      start_from = carried_over(result_.found->model, result_.found->schedule, model);
    }
    for (int cuts = 0; cuts <= kMostCuts && nodes > 0; ++cuts) {
      const SearchLimits limits{nodes, context_.request.seed, watch_.stop};
      const SearchResult solved = solve(model.project, limits, start_from ? &*start_from : nullptr);
      const std::int64_t spent = std::max<std::int64_t>(1, solved.nodes);
      nodes -= spent;
      left_ -= spent;
      if (!solved.schedule) {
        note_failure(solved, std::move(model), failure);
        return {};
      }
      auto written = write_shop(context_, model, *solved.schedule);
      if (!written) {
        return pass_on(written.error());
      }
      if (cuts == 0 && before_ == nullptr && model.stopped_by.empty() &&
          has_no_choice(context_, model)) {
        result_.end_bound = std::max(result_.end_bound.value_or(0), solved.end_bound);
      }
      if (!written->misplaced) {
        const int interruptions = interruptions_of(model, *solved.schedule);
        keep({candidate.choice,
              std::move(model),
              *solved.schedule,
              solved.cost,
              interruptions,
              std::move(*written)},
             solved.stopped_by,
             rank);
        candidate_ = candidate;
        return {};
      }
      take_out(written->misplaced->start, written->misplaced->activity, model.project);
      start_from = solved.schedule;
    }
    return {};
  }

  static int interruptions_of(const ShopModel& model, const StartTimes& schedule) {
    return breaks_in_work(model, schedule) + gun_cleanings(model);
  }

  /// What is made small, in this order.
  static auto aims_of(const FoundShop& found) {
    return std::tuple(
        found.cost.lateness, found.cost.end, found.interruptions, found.cost.sum_of_ends);
  }

  void keep(FoundShop found, StoppedBy stopped_by, Rank rank) {
    const bool is_better =
        !result_.found ||
        (rank == Rank::kLateness ? found.cost.lateness < result_.found->cost.lateness
                                 : aims_of(found) < aims_of(*result_.found));
    if (!is_better) {
      return;
    }
    result_.found = std::move(found);
    result_.stopped_by = stopped_by;
    if (watch_.progress) {
      watch_.progress({context_.request.effort - left_,
                       context_.ticks.time(result_.found->cost.end),
                       std::nullopt});
    }
  }

  void note_failure(const SearchResult& solved, ShopModel model, std::optional<Failure>& failure) {
    result_.why_not = "no schedule was found that keeps all rules";
    failure = Failure{{}, std::move(model)};
    const Project& project = failure->model.project;
    if (solved.no_place) {
      failure->activities.push_back(solved.no_place->activity);
      result_.why_not = why_no_place(context_, failure->model, *solved.no_place);
    }
    for (const MaxLag& lag : project.max_lags) {
      failure->activities.push_back(lag.to);
    }
  }

  /// Changes a candidate that has no schedule. @return false: there is nothing left to change.
  Result<bool> give_way(const Failure& failure, Candidate& candidate) {
    for (const int activity : failure.activities) {
      for (const SessionKey& key :
           failure.model.roles[static_cast<std::size_t>(activity)].sessions) {
        const auto switched = switch_window(key, candidate);
        if (!switched || *switched) {
          return switched;
        }
      }
    }
    return leave_out_job(failure, candidate);
  }

  /// The next way to recoat for a coat. @return false: it has none, or not alone either.
  Result<bool> switch_window(const SessionKey& key, Candidate& candidate) const {
    const auto part = static_cast<std::size_t>(key.part);
    const auto place = static_cast<std::size_t>(key.place);
    const Chain& alone = candidate.chains[part]->alone;
    PartChoice choice = candidate.choice.parts[part];
    const PlacedSession& session = alone.sessions[place];
    if (session.option + 1 >= session.options) {
      return false;
    }
    choice.options[place] = session.option + 1;
    auto chain = chain_of(context_.shop.parts[part], choice, context_.book, context_.clocks);
    if (!chain) {
      return pass_on(chain.error());
    }
    if (chain->alone.sessions.size() < alone.sessions.size()) {
      return false;
    }
    candidate.choice.parts[part] = std::move(choice);
    candidate.chains[part] = std::make_shared<PartChain>(std::move(*chain));
    return true;
  }

  /// Leaves out the piece to blame, or else the first that is still there.
  Result<bool> leave_out_job(const Failure& failure, Candidate& candidate) {
    std::optional<int> blamed = blamed_job(failure);
    bool only_joining = false;
    if (!failure.activities.empty()) {
      const ActivityRole& role =
          failure.model.roles[static_cast<std::size_t>(failure.activities.front())];
      only_joining = role.job && !context_.request.jobs[static_cast<std::size_t>(*role.job)]
                                      .build[static_cast<std::size_t>(role.build)]
                                      .before_finish;
    }
    for (int job = 0; !blamed && job < static_cast<int>(context_.request.jobs.size()); ++job) {
      blamed = is_left_out(job, candidate) ? blamed : std::optional(job);
    }
    if (!blamed || is_left_out(*blamed, candidate)) {
      return false;
    }
    for (std::size_t part = 0; part < candidate.chains.size(); ++part) {
      if (context_.shop.parts[part].job == *blamed) {
        // What joins the parts goes first, then their finishing.
        PartChain less = *candidate.chains[part];
        if (!only_joining) {
          less.alone.sessions.clear();
        }
        less.alone.stopped_by = result_.why_not;
        candidate.chains[part] = std::make_shared<PartChain>(std::move(less));
      }
    }
    return true;
  }

  [[nodiscard]] bool is_left_out(int job, const Candidate& candidate) const {
    for (std::size_t part = 0; part < candidate.chains.size(); ++part) {
      const Chain& chain = candidate.chains[part]->alone;
      if (context_.shop.parts[part].job == job && (!chain.stopped_by || !chain.sessions.empty())) {
        return false;
      }
    }
    return true;
  }

  // --- Once there is a plan.

  Result<void> improve() {
    if (const auto tried = try_orders(); !tried) {
      return tried;
    }
    if (const auto tried = try_guns(); !tried) {
      return tried;
    }
    if (const auto tried = go_on(); !tried) {
      return tried;
    }
    return draw_work_together();
  }

  [[nodiscard]] Time last_start() const {
    return context_.ticks.time(result_.found->model.project.horizon);
  }
  [[nodiscard]] std::int64_t nodes_for_try() const {
    return std::min(left_, std::max<std::int64_t>(1, context_.request.effort / kForTry));
  }

  /// Tries a candidate beside the plan that is there. @return whether it became the plan.
  Result<bool> try_candidate(const Candidate& candidate) {
    const auto aims = aims_of(*result_.found);
    std::optional<Failure> ignored;
    auto model = compile(context_, candidate.chains, candidate.choice.guns, last_start());
    if (!model) {
      return pass_on(model.error());
    }
    const std::string why_not = result_.why_not;
    const Candidate before = candidate_;
    if (const auto tried =
            search_model(candidate, std::move(*model), nodes_for_try(), ignored, Rank::kCost);
        !tried) {
      return pass_on(tried.error());
    }
    result_.why_not = why_not;
    const bool is_better = aims_of(*result_.found) != aims;
    candidate_ = is_better ? candidate : before;
    return is_better;
  }

  /// The other orders of turning over, for the pieces that end last first.
  Result<void> try_orders() {
    if (before_ != nullptr) {
      return {};
    }
    std::vector<std::size_t> parts;
    for (std::size_t part = 0; part < context_.shop.parts.size(); ++part) {
      if (orders_of(context_.shop.parts[part].request.piece.faces).size() > 1 &&
          !result_.found->model.sessions[part].empty()) {
        parts.push_back(part);
      }
    }
    const auto end_of = [&](std::size_t part) {
      const int activity = result_.found->model.sessions[part].back().activity;
      return result_.found->schedule.starts[static_cast<std::size_t>(activity)];
    };
    std::vector<std::tuple<Tick, std::size_t, FaceOrder>> by_end;
    for (const std::size_t part : parts) {
      for (const FaceOrder order : orders_of(context_.shop.parts[part].request.piece.faces)) {
        if (order != candidate_.choice.parts[part].order) {
          by_end.emplace_back(-end_of(part), part, order);
        }
      }
    }
    std::sort(by_end.begin(), by_end.end());
    int tries = 0;
    for (const auto& [end, part, order] : by_end) {
      if (++tries > kMostOrders || left_ <= 0 || is_stopped()) {
        break;
      }
      Candidate other = candidate_;
      PartChoice& choice = other.choice.parts[part];
      choice.order = order;
      choice.options.clear();
      auto chain = chain_of(context_.shop.parts[part], choice, context_.book, context_.clocks);
      if (!chain) {
        return pass_on(chain.error());
      }
      if (chain->alone.stopped_by) {
        continue;
      }
      for (const PlacedSession& session : chain->alone.sessions) {
        choice.options.push_back(session.options > 0 ? std::optional(session.option)
                                                     : std::nullopt);
      }
      other.chains[part] = std::make_shared<PartChain>(std::move(*chain));
      if (const auto tried = try_candidate(other); !tried) {
        return pass_on(tried.error());
      }
    }
    return {};
  }

  Result<void> try_guns() {
    std::set<std::pair<SessionKey, SessionKey>> tried;
    for (int tries = 0; tries < kMostGuns && left_ > 0 && !is_stopped();) {
      bool any = false;
      for (const auto& pair : near_pairs(*result_.found)) {
        Candidate other = candidate_;
        if (!tried.insert(pair).second || !join(pair.first, pair.second, other.choice.guns)) {
          continue;
        }
        any = true;
        ++tries;
        const auto better = try_candidate(other);
        if (!better) {
          return pass_on(better.error());
        }
        break;  // the pairs are looked at anew
      }
      if (!any) {
        break;
      }
    }
    return {};
  }

  /// What is left of the effort goes into the best choice: half into lateness and end, unless they
  /// are proven, and the rest into the ends of the pieces, which a proof of those leaves alone.
  Result<void> go_on() {
    if (left_ <= 0 || is_stopped() || before_ != nullptr) {
      return {};
    }
    std::optional<Failure> ignored;
    if (result_.stopped_by != StoppedBy::kProof) {
      if (const auto tried =
              search_model(candidate_, result_.found->model, left_ / 2 + 1, ignored, Rank::kCost);
          !tried) {
        return tried;
      }
    }
    return left_ <= 0 || context_.request.only_dates ? Result<void>() : pull_ends();
  }

  /// Searches for earlier ends of the pieces, none of them later than it is or is due, by making
  /// every piece due at once.
  Result<void> pull_ends() {
    ShopModel pulled = result_.found->model;
    Project& project = pulled.project;
    for (Job& job : project.jobs) {
      Tick end = 0;
      for (const int activity : job.activities) {
        const auto place = static_cast<std::size_t>(activity);
        end =
            std::max(end, result_.found->schedule.starts[place] + project.activities[place].length);
      }
      const Tick latest = std::min(result_.found->cost.end,
                                   job.due == kNeverTick ? kNeverTick : std::max(job.due, end));
      for (const int activity : job.activities) {
        end_by(latest, activity, project);
      }
      job.due = 0;
    }
    const StoppedBy stopped_by = result_.stopped_by;
    const std::int64_t left = left_;
    std::optional<StartTimes> start_from = result_.found->schedule;
    const SearchResult solved =
        solve(project, {left, context_.request.seed, watch_.stop}, &*start_from);
    left_ -= std::max<std::int64_t>(1, solved.nodes);
    if (!solved.schedule) {
      return {};
    }
    ShopModel model = result_.found->model;
    auto written = write_shop(context_, model, *solved.schedule);
    if (!written) {
      return pass_on(written.error());
    }
    if (!written->misplaced) {
      const ProjectCost cost = cost_of(model.project, *solved.schedule);
      const int interruptions = interruptions_of(model, *solved.schedule);
      keep({candidate_.choice,
            std::move(model),
            *solved.schedule,
            cost,
            interruptions,
            std::move(*written)},
           stopped_by,
           Rank::kCost);
    }
    return {};
  }

  /// Looks for fewer breaks in the work. A plan that is kept is left as it is.
  Result<void> draw_work_together() {
    if (before_ != nullptr || context_.request.only_dates || is_stopped()) {
      return {};
    }
    auto drawn = draw_together(context_, *result_.found, watch_);
    if (!drawn) {
      return pass_on(drawn.error());
    }
    if (*drawn) {
      keep(std::move(**drawn), result_.stopped_by, Rank::kCost);
    }
    return {};
  }

  const ShopContext& context_;
  const SearchWatch& watch_;
  const Plan* before_;
  std::int64_t left_;
  Candidate candidate_;  ///< Of the plan that is there.
  ShopSearchResult result_;
};

}  // namespace

Result<ShopSearchResult> search_shop(const ShopContext& context,
                                     const SearchWatch& watch,
                                     const Plan* before) {
  return ShopSearch(context, watch, before).run();
}

}  // namespace coatwright
