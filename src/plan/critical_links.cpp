#include "plan/critical_links.h"

#include <algorithm>
#include <map>
#include <set>

#include "plan/allowed_starts.h"

namespace coatwright {
namespace {

using std::chrono::seconds;

/// A share of a resource over a stretch of time, by an activity or by what it leaves behind.
struct Taken {
  int resource;
  int amount;
  Tick from;
  Tick to;
  int activity;
};

/// Why an activity begins when it does.
struct Cause {
  std::string name;
  int after = -1;  ///< Activity that it waits for; none: -1.
  Tick since = 0;  ///< From here on it might have begun but for what follows.
  Tick closed = 0;
  Tick air = 0;
};

class Reasons {
 public:
  Reasons(const ShopContext& context, const FoundShop& found)
      : context_(context),
        found_(found),
        project_(found.model.project),
        openings_(openings_of(context.request.hours)) {
    take_all();
  }

  PlanReasons all() {
    PlanReasons reasons;
    for (std::size_t i = 0; i < project_.activities.size(); ++i) {
      causes_.push_back(cause_of(static_cast<int>(i)));
      count_shortage(causes_.back(), static_cast<int>(i));
    }
    std::stable_sort(shared_waits_.begin(),
                     shared_waits_.end(),
                     [](const SharedWait& a, const SharedWait& b) { return a.step < b.step; });
    reasons.shared_waits = std::move(shared_waits_);
    for (const Job& job : project_.jobs) {
      reasons.by_job.push_back(links_of(job));
    }
    for (auto& [resource, shortage] : shortages_) {
      reasons.shortages.push_back(shortage);
    }
    std::stable_sort(reasons.shortages.begin(),
                     reasons.shortages.end(),
                     [](const Shortage& a, const Shortage& b) { return a.waited > b.waited; });
    return reasons;
  }

 private:
  [[nodiscard]] Tick start_of(int activity) const {
    return found_.schedule.starts[static_cast<std::size_t>(activity)];
  }
  [[nodiscard]] const Activity& activity(int which) const {
    return project_.activities[static_cast<std::size_t>(which)];
  }

  void take_all() {
    for (std::size_t i = 0; i < project_.activities.size(); ++i) {
      const int which = static_cast<int>(i);
      for (const Demand& demand : project_.activities[i].demands) {
        taken_.push_back({demand.resource,
                          demand.amount,
                          start_of(which) + demand.from,
                          start_of(which) + demand.to,
                          which});
      }
    }
    for (const Hold& hold : project_.holds) {
      const Tick to =
          hold.to ? start_of(*hold.to) + hold.to_offset : hold.until.at(start_of(hold.from));
      taken_.push_back(
          {hold.resource, hold.amount, start_of(hold.from) + hold.from_offset, to, hold.from});
    }
  }

  [[nodiscard]] int capacity_at(int resource, Tick at) const {
    int capacity = 0;
    for (const CapacityStep& step :
         project_.resources[static_cast<std::size_t>(resource)].capacity) {
      capacity = step.at <= at ? step.capacity : capacity;
    }
    return capacity;
  }

  /// What else would stand in the way of so much of a resource over a stretch. @return the activity
  /// that gives it free last; -1: nothing.
  [[nodiscard]] int blocker(const Taken& wanted) const {
    std::set<Tick> moments{wanted.from};
    for (const Taken& one : taken_) {
      if (one.resource == wanted.resource && wanted.from < one.from && one.from < wanted.to) {
        moments.insert(one.from);
      }
    }
    for (const Tick at : moments) {
      int sum = wanted.amount;
      const Taken* last = nullptr;
      for (const Taken& one : taken_) {
        const bool is_there = one.resource == wanted.resource && one.activity != wanted.activity &&
                              one.from <= at && at < one.to;
        sum += is_there ? one.amount : 0;
        if (is_there && (last == nullptr || one.to < last->to)) {
          last = &one;
        }
      }
      if (sum > capacity_at(wanted.resource, at) && last != nullptr) {
        return last->activity;
      }
    }
    return -1;
  }

  /// What takes a resource that an activity would need if it began at a moment.
  [[nodiscard]] std::optional<std::pair<std::string, int>> short_at(int which, Tick start) const {
    for (const Demand& demand : activity(which).demands) {
      const int other =
          blocker({demand.resource, demand.amount, start + demand.from, start + demand.to, which});
      if (other >= 0) {
        return std::pair(resource_name(demand.resource), other);
      }
    }
    for (const Hold& hold : project_.holds) {
      if (hold.from != which) {
        continue;
      }
      const Tick to = hold.to ? start_of(*hold.to) + hold.to_offset : hold.until.at(start);
      const int other = blocker({hold.resource, hold.amount, start + hold.from_offset, to, which});
      if (other >= 0) {
        return std::pair(resource_name(hold.resource), other);
      }
    }
    return std::nullopt;
  }

  [[nodiscard]] std::string resource_name(int resource) const {
    return project_.resources[static_cast<std::size_t>(resource)].name;
  }

  /// What an activity's dust or film would meet if it began at a moment.
  [[nodiscard]] int dust_at(int which, Tick start) const {
    for (const Exclusion& exclusion : project_.exclusions) {
      const int one = meets(which, start, exclusion.one_side, exclusion.other_side);
      const int other =
          one >= 0 ? one : meets(which, start, exclusion.other_side, exclusion.one_side);
      if (other >= 0) {
        return other;
      }
    }
    return -1;
  }

  [[nodiscard]] int meets(int which,
                          Tick start,
                          const std::vector<Stretch>& own,
                          const std::vector<Stretch>& others) const {
    for (const Stretch& mine : own) {
      if (mine.activity != which) {
        continue;
      }
      for (const Stretch& other : others) {
        const Tick from = start_of(other.activity) + other.from;
        const Tick to = other.until.at(start_of(other.activity));
        if (other.activity != which && from < mine.until.at(start) && start + mine.from < to) {
          return other.activity;
        }
      }
    }
    return -1;
  }

  [[nodiscard]] bool is_allowed(int which, Tick start) const {
    const StartSet& set = project_.start_sets[static_cast<std::size_t>(activity(which).starts)];
    return std::any_of(set.spans.begin(), set.spans.end(), [&](const StartSpan& span) {
      return span.first <= start && start <= span.last;
    });
  }

  [[nodiscard]] bool is_open(int which, Tick start) const {
    const Time from = context_.ticks.time(start);
    const Time to = context_.ticks.time(start + activity(which).length);
    return std::any_of(openings_.begin(), openings_.end(), [&](const Interval& open) {
      return open.start <= from && to <= open.end;
    });
  }

  /// Goes back from the start to the moment from which nothing of its own kept it.
  Cause cause_of(int which) const {
    Cause cause{"start", -1, 0, 0, 0};
    for (const MinLag& lag : project_.min_lags) {
      const Tick at = lag.to == which ? lag.lag.at(start_of(lag.from)) : 0;
      if (lag.to == which && (cause.after < 0 || at > cause.since)) {
        cause.since = at;
        cause.after = lag.from;
        const bool is_work = !lag.lag.function && activity(lag.from).length > 0;
        cause.name = is_work ? "work" : "drying";
      }
    }
    take_first_start(which, cause);
    for (Tick start = start_of(which) - kGrainTicks; start >= std::max(0, cause.since);
         start -= kGrainTicks) {
      if (!is_allowed(which, start)) {
        const bool open = is_open(which, start);
        (open ? cause.air : cause.closed) += kGrainTicks;
        continue;
      }
      if (const int other = dust_at(which, start); other >= 0) {
        return {"dust", other, start, cause.closed, cause.air};
      }
      if (const auto taken = short_at(which, start)) {
        return {taken->first, taken->second, start, cause.closed, cause.air};
      }
      break;  // it might have begun then: the search saw no use in it
    }
    return cause;
  }

  /// What was done before the plan, or the piece's own date, may keep it longer than other work.
  void take_first_start(int which, Cause& cause) const {
    const Tick first = found_.model.first_starts[static_cast<std::size_t>(which)];
    if (first <= std::max(0, cause.since)) {
      return;
    }
    const ActivityRole& role = found_.model.roles[static_cast<std::size_t>(which)];
    std::optional<int> job = role.job;
    if (!job && !role.sessions.empty()) {
      job = context_.shop.parts[static_cast<std::size_t>(role.sessions.front().part)].job;
    }
    const auto earliest =
        job ? context_.request.jobs[static_cast<std::size_t>(*job)].earliest : std::nullopt;
    const bool by_date = earliest && context_.ticks.not_before(*earliest) == first;
    cause = {by_date ? "earliest" : "drying", -1, first, 0, 0};
  }

  void count_shortage(const Cause& cause, int which) {
    static const std::set<std::string> kinds = {"people", "spray places", "rack places", "benches"};
    const bool is_short = kinds.contains(cause.name);
    if (!is_short && cause.name != "dust" && cause.name != "earliest") {
      return;
    }
    const seconds waited = stood_ready(cause, which);
    if (is_short) {
      Shortage& shortage = shortages_[cause.name];
      shortage.resource = cause.name;
      shortage.waited += waited;
      ++shortage.sessions;
    }
    const auto& first_steps = found_.written.first_steps;
    const int step = first_steps[static_cast<std::size_t>(which)];
    const int after = cause.after < 0 ? 0 : first_steps[static_cast<std::size_t>(cause.after)];
    if (step != 0 && waited > seconds(0)) {
      shared_waits_.push_back({step, after, cause.name, waited});
    }
  }

  /// From when an activity was ready by what comes before it. What may not be begun before its date
  /// is ready from the start.
  [[nodiscard]] seconds stood_ready(const Cause& cause, int which) const {
    Tick since = 0;
    for (const MinLag& lag : project_.min_lags) {
      since = lag.to == which ? std::max(since, lag.lag.at(start_of(lag.from))) : since;
    }
    if (cause.name != "earliest") {
      since = std::max(since, found_.model.first_starts[static_cast<std::size_t>(which)]);
    }
    return std::chrono::minutes(std::max(0, start_of(which) - since - cause.closed - cause.air));
  }

  [[nodiscard]] std::vector<CriticalLink> links_of(const Job& job) const {
    int last = -1;
    for (const int which : job.activities) {
      const Tick end = start_of(which) + activity(which).length;
      if (last < 0 || end > start_of(last) + activity(last).length) {
        last = which;
      }
    }
    std::vector<CriticalLink> links;
    std::set<int> seen;
    while (last >= 0 && seen.insert(last).second) {
      const Cause& cause = causes_[static_cast<std::size_t>(last)];
      CriticalLink link;
      link.step = found_.written.first_steps[static_cast<std::size_t>(last)];
      link.cause = cause.name;
      link.closed = std::chrono::minutes(cause.closed);
      link.air = std::chrono::minutes(cause.air);
      Tick since = 0;
      if (cause.after >= 0) {
        link.after = found_.written.first_steps[static_cast<std::size_t>(cause.after)];
        since = start_of(cause.after) + activity(cause.after).length;
      }
      link.waited = std::chrono::minutes(std::max(0, start_of(last) - since));
      if (link.step != 0) {
        links.push_back(std::move(link));
      }
      last = cause.after;
    }
    return links;
  }

  const ShopContext& context_;
  const FoundShop& found_;
  const Project& project_;
  std::vector<Interval> openings_;
  std::vector<Taken> taken_;
  std::vector<Cause> causes_;  ///< By activity.
  std::map<std::string, Shortage> shortages_;
  std::vector<SharedWait> shared_waits_;
};

}  // namespace

PlanReasons reasons_of(const ShopContext& context, const FoundShop& found) {
  return Reasons(context, found).all();
}

}  // namespace coatwright
