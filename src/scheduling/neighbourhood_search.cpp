#include "scheduling/neighbourhood_search.h"

#include <algorithm>
#include <cmath>

#include "scheduling/priority_rules.h"

namespace coatwright {
namespace {

constexpr double kFirstSize = 24;
constexpr double kLeastSize = 8;
constexpr double kMostSize = 150;
constexpr double kGrowth = 1.08;
constexpr double kFurthestBack = 0.1;  // of the end: how far before it an overrun may begin
// How often a goal is less lateness, and an earlier end.
constexpr double kOutright = 0.75;
constexpr double kOutrightEnd = 0.1;
constexpr std::size_t kManySteps = 300;
constexpr int kMostWhole = 20;
constexpr std::size_t kFewJobs = 20;  // so many times more are many
constexpr std::int64_t kNodesEach = 200;
constexpr std::int64_t kNodesPerFree = 10;
constexpr int kBolder = 6;  // times what the last find gained is asked of the next
/// What it costs to set a search up, in decisions.
constexpr std::int64_t kNodesOfBeginning = 20;

}  // namespace

/// What suits a number of steps. Measured on drawn shops.
struct NeighbourhoodSearch::Turns {
  int of_end;        ///< While jobs are late, the end has one turn of so many.
  int keep_end;      ///< So many of four searches for less lateness do not let the end go.
  double many_jobs;  ///< How often a smaller sum of ends is asked for, when many jobs keep the end
  double few_jobs;   ///< from an earlier one, and when few do;
  int part;          ///< for how much less of it at first: 1 / 2^part.
  bool whole_jobs;   ///< Beside what must end sooner, whole jobs are freed.
};
constexpr NeighbourhoodSearch::Turns NeighbourhoodSearch::kOfFewSteps = {
    8, 0, 0.45, 0.45, 62, false};
constexpr NeighbourhoodSearch::Turns NeighbourhoodSearch::kOfManySteps = {
    3, 3, 0.75, 0.25, 14, true};

class NeighbourhoodSearch::Part {
 public:
  explicit Part(const StartTimes& schedule) {
    for (const Tick start : schedule.starts) {
      fixed.emplace_back(start);
    }
  }
  void free(int activity) {
    if (fixed[activity]) {
      fixed[activity] = std::nullopt;
      freed.push_back(activity);
    }
  }

  std::vector<std::optional<Tick>> fixed;
  std::vector<int> freed;
};

NeighbourhoodSearch::NeighbourhoodSearch(SearchTables& tables,
                                         const LagNetwork& network,
                                         unsigned seed,
                                         const std::function<bool()>& stop)
    : tables_(tables),
      project_(tables.project()),
      stop_(stop),
      random_(std::uint64_t{seed} + 1'000'003),
      group_of_(groups_of(project_, network)),
      users_(project_.resources.size()),
      turns_(project_.activities.size() > kManySteps ? kOfManySteps : kOfFewSteps),
      size_(kFirstSize) {
  for (std::size_t i = 0; i < group_of_.size(); ++i) {
    groups_.resize(std::max(groups_.size(), static_cast<std::size_t>(group_of_[i]) + 1));
    groups_[group_of_[i]].push_back(static_cast<int>(i));
    for (const Demand& demand : project_.activities[i].demands) {
      users_[demand.resource].push_back(static_cast<int>(i));
    }
  }
  for (const Hold& hold : project_.holds) {
    users_[hold.resource].push_back(hold.from);
  }
}

Tick NeighbourhoodSearch::end_of(int activity) const {
  return current_.starts[activity] + project_.activities[activity].length;
}

Tick NeighbourhoodSearch::end_of_job(const Job& job) const {
  Tick end = 0;
  for (const int activity : job.activities) {
    end = std::max(end, end_of(activity));
  }
  return end;
}

void NeighbourhoodSearch::run(std::int64_t nodes, std::int64_t lateness_bound, Incumbent& best) {
  const std::int64_t last = nodes_ + nodes;
  while (best.schedule && nodes_ < last && !(stop_ && stop_())) {
    if (current_.starts.empty() || best.cost < best_cost_) {
      best_cost_ = best.cost;
      take_over(*best.schedule);
    }
    Part part(current_);
    // The least lateness may be there without a proof: the end has a turn now and then.
    const bool for_lateness =
        best.cost.lateness > lateness_bound && random_.below(turns_.of_end) > 0;
    const Goal goal = choose_goal(for_lateness, part);
    if (search_part(goal, last - nodes_, part) && best.offer(project_, current_)) {
      best_cost_ = best.cost;
    }
  }
}

void NeighbourhoodSearch::take_over(const StartTimes& schedule) {
  current_ = schedule;
  current_cost_ = cost_of(project_, current_);
}

/// What the search of a part has learned serves for the next find too: it goes on while it finds.
bool NeighbourhoodSearch::search_part(Goal goal, std::int64_t most_nodes, Part& part) {
  const auto wanted = std::min(part.fixed.size(), static_cast<std::size_t>(size_));
  // What must end sooner gives way only to whole jobs: all their steps move with it.
  const bool are_whole = turns_.whole_jobs && goal.limit.overrun && goal.limit.overrun->past > 0;
  for (int more = 0; part.freed.size() < wanted; ++more) {
    if (are_whole && more < kMostWhole) {
      free_groups(part);
    } else {
      free_more(part);
    }
  }
  const std::int64_t each =
      kNodesEach + kNodesPerFree * static_cast<std::int64_t>(part.freed.size());
  ConflictSearch search(
      tables_, goal.limit, part.fixed, current_.starts, static_cast<unsigned>(random_.next()));
  nodes_ += kNodesOfBeginning;
  bool is_better = false;
  ProofOutcome outcome = ProofOutcome::kFound;
  while (outcome == ProofOutcome::kFound && search.nodes() < most_nodes) {
    const std::int64_t before = search.nodes();
    outcome = search.run(std::min(each, most_nodes - before), stop_);
    nodes_ += search.nodes() - before;
    if (outcome == ProofOutcome::kFound) {
      take_over(search.found());
      ask_for_more(goal);
      search.tighten(goal.limit);
      is_better = true;
    }
  }
  if (!is_better) {
    const bool larger = outcome == ProofOutcome::kNone;
    size_ = std::clamp(larger ? size_ * kGrowth : size_ / kGrowth, kLeastSize, kMostSize);
  }
  return is_better;
}

/// The more was gained, the more is asked for: a first find differs from what was there by as
/// little as was asked for.
void NeighbourhoodSearch::ask_for_more(Goal& goal) const {
  CostLimit& limit = goal.limit;
  switch (goal.measure) {
    case Goal::Measure::kLateness: {
      const std::int64_t gained = limit.lateness - current_cost_.lateness;
      limit.lateness = current_cost_.lateness - 1 - kBolder * gained;
      return;
    }
    case Goal::Measure::kEnd: {
      const Tick gained = limit.end - current_cost_.end;
      limit.end = current_cost_.end - 1 - kBolder * gained;
      break;
    }
    case Goal::Measure::kOverrun: {
      const std::int64_t now = overrun(limit.overrun->past);
      const std::int64_t gained = limit.overrun->sum - now;
      limit.overrun->sum = now - 1 - kBolder * gained;
      break;
    }
  }
  limit.lateness = current_cost_.lateness;
}

std::int64_t NeighbourhoodSearch::overrun(Tick past) const {
  std::int64_t sum = 0;
  for (const Job& job : project_.jobs) {
    sum += std::int64_t{std::max(0, job.weight)} * std::max(0, end_of_job(job) - past);
  }
  return sum;
}

/// Where the best end is the same for many schedules, such as a morning's, the way down leads over
/// those in which less lies past a moment before it, or which end sooner in sum.
NeighbourhoodSearch::Goal NeighbourhoodSearch::choose_goal(bool for_lateness, Part& part) {
  const double choice = random_.fraction();
  if (choice < (for_lateness ? kOutright : kOutrightEnd)) {
    free_what_costs(for_lateness, part);
    return for_lateness ? less_late() : sooner_over();
  }
  const double back = random_.fraction();
  Tick past = static_cast<Tick>((current_cost_.end - 1) * (1.0 - kFurthestBack * back * back));
  std::vector<int> over = jobs_past(past);
  const bool are_few = over.size() * kFewJobs <= project_.jobs.size();
  const double for_sums = are_few ? turns_.few_jobs : turns_.many_jobs;
  const bool for_sum = for_lateness || choice < kOutrightEnd + for_sums;
  if (for_sum) {
    past = 0;
    over = jobs_past(past);
  }
  if (over.empty()) {
    free_what_costs(for_lateness, part);
    return sooner_over();
  }
  free_job(over[random_.below(static_cast<int>(over.size()))], part);
  const std::int64_t sum = overrun(past);
  const int part_of_it = for_sum ? turns_.part : 2 * (1 + random_.below(3));
  const std::int64_t less = 1 + (sum >> part_of_it);
  return {Goal::Measure::kOverrun,
          {current_cost_.lateness,
           for_lateness ? kNeverTick : current_cost_.end,
           Overrun{past, sum - less}}};
}

std::vector<int> NeighbourhoodSearch::jobs_past(Tick past) const {
  std::vector<int> jobs;
  for (std::size_t i = 0; i < project_.jobs.size(); ++i) {
    if (end_of_job(project_.jobs[i]) > past && project_.jobs[i].weight > 0) {
      jobs.push_back(static_cast<int>(i));
    }
  }
  return jobs;
}

NeighbourhoodSearch::Goal NeighbourhoodSearch::less_late() {
  const bool keeps_end = turns_.keep_end > 0 && random_.below(4) < turns_.keep_end;
  return {Goal::Measure::kLateness,
          {current_cost_.lateness - 1, keeps_end ? current_cost_.end : kNeverTick}};
}

NeighbourhoodSearch::Goal NeighbourhoodSearch::sooner_over() const {
  return {Goal::Measure::kEnd, {current_cost_.lateness, current_cost_.end - 1}};
}

void NeighbourhoodSearch::free_job(int job, Part& part) {
  for (const int activity : project_.jobs[job].activities) {
    part.free(activity);
  }
}

void NeighbourhoodSearch::free_what_costs(bool for_lateness, Part& part) {
  if (for_lateness) {
    free_late_job(part);
    return;
  }
  free_last(part);
  if (random_.below(2) == 0) {
    free_stretch(size_, part);
  }
}

/// All that ends last, for else the end stays; with it some of what it waits for.
void NeighbourhoodSearch::free_last(Part& part) {
  Tick end = 0;
  for (std::size_t i = 0; i < group_of_.size(); ++i) {
    end = std::max(end, end_of(static_cast<int>(i)));
  }
  const Tick back = static_cast<Tick>(end * 0.15 * random_.fraction());
  for (std::size_t i = 0; i < group_of_.size(); ++i) {
    if (end_of(static_cast<int>(i)) < end) {
      continue;
    }
    part.free(static_cast<int>(i));
    for (const int other : groups_[group_of_[i]]) {
      if (end_of(other) > end - back) {
        part.free(other);
      }
    }
  }
}

void NeighbourhoodSearch::free_late_job(Part& part) {
  std::vector<int> late;
  for (std::size_t i = 0; i < project_.jobs.size(); ++i) {
    if (end_of_job(project_.jobs[i]) > project_.jobs[i].due) {
      late.push_back(static_cast<int>(i));
    }
  }
  if (!late.empty()) {
    free_job(late[random_.below(static_cast<int>(late.size()))], part);
  }
}

void NeighbourhoodSearch::free_more(Part& part) {
  switch (random_.below(3)) {
    case 0:
      free_stretch(size_ * 0.5 * random_.fraction(), part);
      break;
    case 1:
      free_groups(part);
      break;
    default:
      free_rivals(part);
  }
}

/// What lies nearest to a moment.
void NeighbourhoodSearch::free_stretch(double most, Part& part) {
  const int count = static_cast<int>(group_of_.size());
  const int centre = part.freed.empty()
                         ? random_.below(count)
                         : part.freed[random_.below(static_cast<int>(part.freed.size()))];
  const Tick at = current_.starts[centre];
  std::vector<std::pair<Tick, int>> nearest;
  for (int i = 0; i < count; ++i) {
    if (part.fixed[i]) {
      nearest.emplace_back(std::abs(current_.starts[i] - at), i);
    }
  }
  std::sort(nearest.begin(), nearest.end());
  const std::size_t wanted = 1 + static_cast<std::size_t>(most);
  for (std::size_t i = 0; i < std::min(wanted, nearest.size()); ++i) {
    part.free(nearest[i].second);
  }
}

/// A whole job, that is in work when a freed activity is.
void NeighbourhoodSearch::free_groups(Part& part) {
  const int count = static_cast<int>(group_of_.size());
  const int first = random_.below(count);
  if (part.freed.empty()) {
    part.free(first);
    return;
  }
  const int near = part.freed[random_.below(static_cast<int>(part.freed.size()))];
  int chosen = first;
  for (int attempt = 0; attempt < 4; ++attempt) {
    const int other = random_.below(count);
    const auto distance = [&](int activity) {
      return std::abs(current_.starts[activity] - current_.starts[near]);
    };
    if (part.fixed[other] && (!part.fixed[chosen] || distance(other) < distance(chosen))) {
      chosen = other;
    }
  }
  const auto most = static_cast<std::size_t>(size_ * 1.5);
  for (const int activity : groups_[group_of_[chosen]]) {
    if (part.freed.size() < most) {
      part.free(activity);
    }
  }
}

/// What takes of the same resource shortly before a freed activity, or when it does.
void NeighbourhoodSearch::free_rivals(Part& part) {
  if (part.freed.empty()) {
    return free_stretch(size_ * 0.5 * random_.fraction(), part);
  }
  const int freed = part.freed[random_.below(static_cast<int>(part.freed.size()))];
  const auto& demands = project_.activities[freed].demands;
  if (demands.empty()) {
    return free_stretch(size_ * 0.5 * random_.fraction(), part);
  }
  const int resource = demands[random_.below(static_cast<int>(demands.size()))].resource;
  std::vector<std::pair<Tick, int>> nearest;
  for (const int other : users_[resource]) {
    const Tick before = current_.starts[freed] - current_.starts[other];
    if (part.fixed[other]) {
      nearest.emplace_back(before >= 0 ? before : -3 * before, other);
    }
  }
  std::sort(nearest.begin(), nearest.end());
  const std::size_t wanted = 1 + static_cast<std::size_t>(random_.below(6));
  for (std::size_t i = 0; i < std::min(wanted, nearest.size()); ++i) {
    part.free(nearest[i].second);
  }
  if (nearest.empty()) {
    free_stretch(size_ * 0.5 * random_.fraction(), part);
  }
}

}  // namespace coatwright
