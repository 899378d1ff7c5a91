#include "scheduling/lower_bounds.h"

#include <algorithm>
#include <numeric>
#include <set>

#include "scheduling/least_span.h"

namespace coatwright {
namespace {

constexpr int kNoJob = -1;
constexpr int kManyJobs = -2;
constexpr std::size_t kMostBegins = 48;  // of task intervals, per pool

}  // namespace

LowerBounds::LowerBounds(const Project& project, const LagNetwork& network, const Windows& windows)
    : project_(project),
      network_(network),
      windows_(windows),
      pools_(pools_of(project, network, windows)),
      items_(pools_.size()),
      job_of_(project.activities.size(), kNoJob) {
  find_steps();
  for (std::size_t i = 0; i < pools_.size(); ++i) {
    usable_.emplace_back(project, pools_[i]);
    add_uses(i);
    add_holds(i);
  }
  for (std::size_t i = 0; i < project.jobs.size(); ++i) {
    for (const int activity : project.jobs[i].activities) {
      int& job = job_of_[activity];
      job = job == kNoJob || job == static_cast<int>(i) ? static_cast<int>(i) : kManyJobs;
    }
  }
  tails_ = tails(std::vector<int>(project.activities.size(), 0));
  job_tails_ = tails(job_of_);
}

void LowerBounds::add_uses(std::size_t pool) {
  for (const Pool::Use& use : pools_[pool].uses) {
    const std::int64_t energy = std::int64_t{use.amount} * (use.to - use.from);
    items_[pool].push_back({use.activity, use.from, use.activity, use.to, false, energy});
  }
}

Tick LowerBounds::least_hold(const Hold& hold) const {
  if (!hold.to) {
    return least_span(network_.grid(hold.from),
                      windows_.low(hold.from),
                      windows_.high(hold.from),
                      [&](Tick start) { return hold.until.at(start); }) -
           hold.from_offset;
  }
  Tick least = 0;
  for (const Step& step : steps_[hold.from]) {
    least = step.to == *hold.to ? std::max(least, step.least) : least;
  }
  // Without a lag between them it may be over before it begins.
  return least > 0 ? least + hold.to_offset - hold.from_offset : 0;
}

void LowerBounds::add_holds(std::size_t pool) {
  for (const int index : pools_[pool].holds) {
    const Hold& hold = project_.holds[index];
    const Tick length = least_hold(hold);
    if (length <= 0 || length >= kNeverTick / 2) {
      continue;
    }
    items_[pool].push_back({hold.from,
                            hold.from_offset,
                            hold.to.value_or(hold.from),
                            hold.to_offset,
                            !hold.to,
                            std::int64_t{hold.amount} * length});
  }
}

/// How long a minimum lag lasts at least, up to a start that its other activity may have.
Tick LowerBounds::least_step(const MinLag& min) const {
  const Tick least = least_span(
      network_.grid(min.from), windows_.low(min.from), windows_.high(min.from), [&](Tick start) {
        return network_.grid(min.to).up(std::max(min.lag.at(start), windows_.low(min.to)));
      });
  return min.lag.function ? least : std::max(least, min.lag.constant);
}

void LowerBounds::find_steps() {
  steps_.resize(project_.activities.size());
  for (const MinLag& min : project_.min_lags) {
    const Tick least = least_step(min);
    if (least > 0 && least < kNeverTick / 2) {
      steps_[min.from].push_back({min.to, least});
    }
  }
}

/// From a start to the end of what must follow it in its group. @param groups per activity; a
/// negative one is no group.
std::vector<Tick> LowerBounds::tails(const std::vector<int>& groups) const {
  std::vector<Tick> tails;
  for (const Activity& activity : project_.activities) {
    tails.push_back(activity.length);
  }
  for (std::size_t round = 0, moved = 1; moved > 0 && round < tails.size(); ++round) {
    moved = 0;
    for (std::size_t i = tails.size(); i-- > 0;) {
      for (const Step& step : steps_[i]) {
        const bool inside = groups[i] >= 0 && groups[i] == groups[step.to];
        if (inside && tails[step.to] + step.least > tails[i]) {
          tails[i] = tails[step.to] + step.least;
          ++moved;
        }
      }
    }
  }
  return tails;
}

Tick LowerBounds::end_bound(const Windows& within,
                            Tick known,
                            const std::function<bool()>& stop) const {
  Tick bound = 0;
  for (int i = 0; i < network_.count(); ++i) {
    bound = std::max(bound, within.low(i) + tails_[i]);
  }
  bound = std::min(bound, known);
  Tick open = known;  // not refuted
  while (bound < open && !(stop && stop())) {
    const Tick middle = bound + (open - bound) / 2;
    if (is_refuted(within, middle)) {
      bound = middle + 1;
    } else {
      open = middle;
    }
  }
  return bound;
}

/// Whether no schedule can end by a moment.
bool LowerBounds::is_refuted(const Windows& within, Tick end) const {
  Windows windows = within;
  for (int i = 0; i < network_.count(); ++i) {
    if (!windows.lower(i, end - tails_[i])) {
      return true;
    }
  }
  for (std::size_t i = 0; i < items_.size(); ++i) {
    if (is_short(i, windows)) {
      return true;
    }
  }
  return false;
}

/// Whether what must lie between an early begin and a late end needs more than there is.
bool LowerBounds::is_short(std::size_t pool, const Windows& windows) const {
  struct Bounded {
    Tick begin;
    Tick end;
    std::int64_t energy;
  };
  std::vector<Bounded> bounded;
  std::set<Tick> begins;
  for (const Item& item : items_[pool]) {
    if (!item.end_is_free) {
      bounded.push_back({windows.low(item.begin_activity) + item.begin_offset,
                         windows.high(item.end_activity) + item.end_offset,
                         item.energy});
      begins.insert(bounded.back().begin);
    }
  }
  std::sort(bounded.begin(), bounded.end(), [](const Bounded& a, const Bounded& b) {
    return a.end < b.end;
  });
  const std::size_t step = begins.size() / kMostBegins + 1;
  std::size_t place = 0;
  for (const Tick begin : begins) {
    if (place++ % step != 0) {
      continue;
    }
    std::int64_t needed = 0;
    for (std::size_t i = 0; i < bounded.size(); ++i) {
      needed += bounded[i].begin >= begin ? bounded[i].energy : 0;
      const bool last = i + 1 == bounded.size() || bounded[i + 1].end > bounded[i].end;
      if (last && needed > 0 && needed > usable_[pool].between(begin, bounded[i].end)) {
        return true;
      }
    }
  }
  return false;
}

std::optional<Windows> LowerBounds::no_later_than(std::int64_t lateness) const {
  std::int64_t least = 0;
  for (const Job& job : project_.jobs) {
    least += least_lateness(job);
  }
  Windows windows = windows_;
  for (const Job& job : project_.jobs) {
    if (job.weight <= 0 || job.due >= kNeverTick) {
      continue;
    }
    const std::int64_t spare = lateness - least + least_lateness(job);
    const std::int64_t deadline = job.due + spare / job.weight;
    for (const int activity : job.activities) {
      if (spare < 0 ||
          (deadline < kNeverTick &&
           !windows.lower(activity, static_cast<Tick>(deadline) - job_tail(activity)))) {
        return std::nullopt;
      }
    }
  }
  return windows;
}

std::int64_t LowerBounds::lateness_bound() const {
  std::int64_t by_windows = 0;
  std::set<int> weights;
  for (const Job& job : project_.jobs) {
    by_windows += least_lateness(job);
    if (job.due < kNeverTick && job.weight > 0) {
      weights.insert(job.weight);
    }
  }
  std::int64_t best = by_windows;
  for (std::size_t i = 0; i < items_.size(); ++i) {
    std::int64_t sum = 0;
    int below = 0;
    for (const int weight : weights) {  // a weight is a sum of layers, and each is bounded alone
      sum += (weight - below) * lateness_on(i, weight);
      below = weight;
    }
    best = std::max(best, sum);
  }
  return best;
}

std::int64_t LowerBounds::least_lateness(const Job& job) const {
  return std::int64_t{job.weight} * std::max(0, least_end(job) - job.due);
}

Tick LowerBounds::job_tail(int activity) const {
  return job_of_[activity] >= 0 ? job_tails_[activity] : project_.activities[activity].length;
}

Tick LowerBounds::least_end(const Job& job) const {
  Tick end = 0;
  for (const int activity : job.activities) {
    end = std::max(end, windows_.low(activity) + job_tail(activity));
  }
  return end;
}

/// What the jobs of a weight and more, as far as they have a due date, need of a pool.
std::vector<LowerBounds::Need> LowerBounds::needs_of(std::size_t pool, int least_weight) const {
  std::vector<Need> by_job;
  for (const Job& job : project_.jobs) {
    by_job.push_back({job.due, job.weight, 0, kNeverTick, kNeverTick});
  }
  for (const Item& item : items_[pool]) {
    const int job = job_of_[item.begin_activity];
    // What may go on after its job has ended says nothing of that end.
    if (job < 0 || item.end_is_free || job_of_[item.end_activity] != job) {
      continue;
    }
    Need& need = by_job[job];
    need.energy += item.energy;
    need.begin = std::min(need.begin, windows_.low(item.begin_activity) + item.begin_offset);
    need.tail = std::min(need.tail, job_tails_[item.end_activity] - item.end_offset);
  }
  std::erase_if(by_job, [&](const Need& need) {
    return need.energy == 0 || need.due >= kNeverTick || need.weight < least_weight;
  });
  std::sort(
      by_job.begin(), by_job.end(), [](const Need& a, const Need& b) { return a.due < b.due; });
  return by_job;
}

/// The least sum of lateness of the jobs of a weight and more, each counted once: the k-th of them
/// to leave a pool does so no sooner than the k least needs are met.
std::int64_t LowerBounds::lateness_on(std::size_t pool, int least_weight) const {
  std::int64_t best = 0;
  std::vector<std::int64_t> energies;  // of those due first, the least first
  const std::vector<Need> needs = needs_of(pool, least_weight);
  Tick begin = kNeverTick;
  Tick tail = kNeverTick;
  for (std::size_t count = 0; count < needs.size(); ++count) {
    const Need& added = needs[count];
    begin = std::min(begin, added.begin);
    tail = std::min(tail, added.tail);
    energies.insert(std::upper_bound(energies.begin(), energies.end(), added.energy), added.energy);
    std::int64_t sum = 0;
    std::int64_t energy = 0;
    for (std::size_t i = 0; i <= count; ++i) {
      energy += energies[i];
      const std::int64_t end = std::int64_t{usable_[pool].reached(begin, energy)} + tail;
      sum += std::max<std::int64_t>(0, end - needs[i].due);
    }
    best = std::max(best, sum);
  }
  return best;
}

}  // namespace coatwright
