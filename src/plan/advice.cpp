#include "plan/advice.h"

#include <algorithm>

#include "plan/advice_candidates.h"
#include "plan/due_dates.h"

namespace coatwright {
namespace {

using std::chrono::seconds;

constexpr int kMostPairsTried = 200;
constexpr std::size_t kMostPairs = 3;

std::set<std::string> late_pieces(const Plan& plan) {
  std::set<std::string> late;
  for (const PlanPiece& piece : plan.pieces) {
    if (piece.late > seconds(0) || !piece.finish) {
      late.insert(piece.name);
    }
  }
  return late;
}

seconds lateness_of(const Plan& plan) {
  seconds sum{0};
  for (const PlanPiece& piece : plan.pieces) {
    sum += piece.late;
  }
  return sum;
}

/// Orders ends: none is the latest.
bool ends_before(const std::optional<Time>& a, const std::optional<Time>& b) {
  return a && (!b || *a < *b);
}

double burden_of(const Way& way) {
  double sum = 0.0;
  for (const Change& change : way.changes) {
    sum += change.burden;
  }
  return sum;
}

/// Whether a kind's failure is worth a line: other schedules are too many.
bool is_told_in_vain(ChangeKind kind) {
  return kind != ChangeKind::kOtherSchedule;
}

class Adviser {
 public:
  Adviser(const AdviceRequest& request,
          const RecipeBook& book,
          const AirRecord& air,
          const Replanning& replanning,
          const AdviceWatch& watch)
      : request_(request), book_(book), air_(air), replanning_(replanning), watch_(watch) {}

  [[nodiscard]] Result<DateAdvice> run();

 private:
  [[nodiscard]] std::optional<Plan> planned(const Replan& replan, const WorkAndAir& work);
  [[nodiscard]] std::optional<Plan> sketched(const WorkAndAir& work);
  [[nodiscard]] WorkAndAir with(const std::vector<Change>& changes) const;
  [[nodiscard]] bool may_hold(const WorkAndAir& work) const;
  void tell_in_vain(const Scan& changes, std::optional<InVain> best);
  [[nodiscard]] Way way_of(const std::vector<Change>& changes, Plan sketch);
  [[nodiscard]] std::optional<Way> way_with(const std::vector<Change>& changes);
  void scan(const Scan& changes);
  [[nodiscard]] Way refined(Way way, const ChangePair& pair, const std::vector<Scan>& singles);
  void find_pairs(const std::vector<Scan>& singles);
  [[nodiscard]] bool holds_from(Time start);
  [[nodiscard]] std::optional<Time> latest_in(const StaffedHours& hours);
  void find_latest_start(Time last_due);
  void find_gains(const AdviceBasis& basis);
  [[nodiscard]] bool is_stopped();

  const AdviceRequest& request_;
  const RecipeBook& book_;
  const AirRecord& air_;
  const Replanning& replanning_;
  const AdviceWatch& watch_;
  DateAdvice advice_;
};

bool Adviser::is_stopped() {
  advice_.stopped = advice_.stopped || (watch_.stop && watch_.stop());
  return advice_.stopped;
}

/// A change that cannot be planned, such as a schedule that a recipe forbids, is no way.
std::optional<Plan> Adviser::planned(const Replan& replan, const WorkAndAir& work) {
  auto plan = replan(work.shop, work.air);
  ++advice_.replans;
  if (watch_.progress) {
    watch_.progress(advice_.replans);
  }
  if (!plan) {
    return std::nullopt;
  }
  return std::move(*plan);
}

std::optional<Plan> Adviser::sketched(const WorkAndAir& work) {
  return planned(replanning_.dates ? replanning_.dates : replanning_.whole, work);
}

WorkAndAir Adviser::with(const std::vector<Change>& changes) const {
  WorkAndAir work{request_.shop, air_};
  for (const Change& change : changes) {
    work = with_change(work, request_.earlier, change);
  }
  return work;
}

bool Adviser::may_hold(const WorkAndAir& work) const {
  return !replanning_.may_meet_dates || replanning_.may_meet_dates(work.shop, work.air);
}

/// @param sketch a plan with the changes that meets the dates.
Way Adviser::way_of(const std::vector<Change>& changes, Plan sketch) {
  const WorkAndAir work = with(changes);
  Way way{changes, std::move(sketch)};
  if (replanning_.dates) {
    if (auto whole = planned(replanning_.whole, work); whole && whole->fits) {
      way.plan = std::move(*whole);
    }
  }
  const Interval span = {std::min(work.shop.from, request_.shop.from),
                         way.plan.finish.value_or(work.shop.horizon)};
  way.presence =
      presence_between(work.shop.hours, span) - presence_between(request_.shop.hours, span);
  return way;
}

/// @return nothing where the dates are not met.
std::optional<Way> Adviser::way_with(const std::vector<Change>& changes) {
  const WorkAndAir work = with(changes);
  auto plan = may_hold(work) ? sketched(work) : std::nullopt;
  return plan && plan->fits ? std::optional(way_of(changes, std::move(*plan))) : std::nullopt;
}

void Adviser::scan(const Scan& changes) {
  std::optional<InVain> best;
  for (const Change& change : changes) {
    if (is_stopped()) {
      return;
    }
    const WorkAndAir work = with({change});
    auto plan = may_hold(work) ? sketched(work) : std::nullopt;
    if (!plan) {
      continue;
    }
    if (plan->fits) {
      advice_.ways.push_back(way_of({change}, std::move(*plan)));
      return;
    }
    if (is_stopped()) {
      return;  // the plan was cut short: it says nothing of the change
    }
    if (!best || ends_before(plan->finish, best->finish)) {
      best = InVain{change, plan->finish};
    }
  }
  if (is_told_in_vain(changes.back().kind)) {
    tell_in_vain(changes, std::move(best));
  }
}

/// @param best of those that were planned. Where none was, since bounds showed that none holds, the
/// most of the kind that finds a place for all steps.
void Adviser::tell_in_vain(const Scan& changes, std::optional<InVain> best) {
  constexpr std::size_t kMostTried = 4;
  for (std::size_t i = 0; i < std::min(kMostTried, changes.size()); ++i) {
    if (best && best->finish) {
      break;
    }
    // Spread over the scan, the most first.
    const Change& change = changes[changes.size() - 1 - i * changes.size() / kMostTried];
    const auto plan = sketched(with({change}));
    if (is_stopped()) {
      return;
    }
    if (plan && (!best || ends_before(plan->finish, best->finish))) {
      best = InVain{change, plan->finish};
    }
  }
  if (best) {
    advice_.in_vain.push_back(std::move(*best));
  }
}

/// Of a pair that holds, the least of each of its changes that still does.
Way Adviser::refined(Way way, const ChangePair& pair, const std::vector<Scan>& singles) {
  for (const std::size_t which : {std::size_t{0}, std::size_t{1}}) {
    for (const Change& less : singles[pair.scans[which]]) {
      if (less.burden >= way.changes[which].burden || is_stopped()) {
        break;
      }
      std::vector<Change> changes = way.changes;
      changes[which] = less;
      if (auto other = way_with(changes)) {
        way = std::move(*other);
        break;
      }
    }
  }
  return way;
}

void Adviser::find_pairs(const std::vector<Scan>& singles) {
  int tried = 0;
  std::set<std::pair<ChangeKind, ChangeKind>> found;
  for (const ChangePair& pair : paired_changes(singles)) {
    const auto kinds = std::pair(pair.changes[0].kind, pair.changes[1].kind);
    if (found.contains(kinds)) {
      continue;
    }
    if (is_stopped() || tried++ == kMostPairsTried || found.size() == kMostPairs) {
      return;
    }
    if (auto way = way_with({pair.changes[0], pair.changes[1]})) {
      advice_.ways.push_back(refined(std::move(*way), pair, singles));
      found.insert(kinds);
    }
  }
}

bool Adviser::holds_from(Time start) {
  const WorkAndAir work{begun_at(request_.shop, request_.earlier, start), air_};
  const auto plan = may_hold(work) ? sketched(work) : std::nullopt;
  return plan && plan->fits;
}

/// The latest start in an opening from whose first start the dates hold.
std::optional<Time> Adviser::latest_in(const StaffedHours& hours) {
  const std::vector<Time> starts = possible_starts({hours}, {request_.shop.from, hours.open.end});
  for (auto start = starts.rbegin(); start != starts.rend(); ++start) {
    if (is_stopped()) {
      return std::nullopt;
    }
    if (holds_from(*start)) {
      return *start;
    }
  }
  return std::nullopt;
}

/// Back from the date, opening by opening, then through the one that holds. Who starts later is
/// never ready earlier, so an opening whose first start does not hold need not be looked through.
void Adviser::find_latest_start(Time last_due) {
  const auto& hours = request_.shop.hours;
  for (auto one = hours.rbegin(); one != hours.rend(); ++one) {
    if (one->open.start >= last_due) {
      continue;
    }
    if (is_stopped()) {
      return;
    }
    if (holds_from(std::max(one->open.start, request_.shop.from))) {
      advice_.latest_start = latest_in(*one);
      return;
    }
  }
}

/// Each beside the plan as it stands, both with the same effort.
void Adviser::find_gains(const AdviceBasis& basis) {
  const auto standing = replanning_.dates ? sketched(with({})) : std::optional(advice_.plan);
  for (const Change& change : marginal_changes(basis)) {
    if (is_stopped() || !standing) {
      return;
    }
    const auto plan = sketched(with({change}));
    if (!plan) {
      continue;
    }
    Gain gain{change, plan->finish};
    if (plan->finish && standing->finish) {
      gain.earlier = *standing->finish - *plan->finish;
    }
    gain.less_late = lateness_of(*standing) - lateness_of(*plan);
    advice_.gains.push_back(std::move(gain));
  }
  std::stable_sort(advice_.gains.begin(), advice_.gains.end(), [](const Gain& a, const Gain& b) {
    return std::pair(a.less_late, a.earlier) > std::pair(b.less_late, b.earlier);
  });
}

Result<DateAdvice> Adviser::run() {
  auto plan = replanning_.whole(request_.shop, air_);
  if (!plan) {
    return pass_on(plan.error());
  }
  advice_.plan = std::move(*plan);
  advice_.replans = 1;
  const AdviceBasis basis{
      request_, book_, air_, advice_.plan, late_pieces(advice_.plan), last_due_of(request_.shop)};
  for (const PlanPiece& piece : advice_.plan.pieces) {
    if (basis.late.contains(piece.name)) {
      advice_.late.push_back({piece.name, piece.due, piece.finish});
    }
  }
  if (advice_.plan.fits) {
    find_latest_start(basis.last_due);
  } else {
    const std::vector<Scan> singles = single_changes(basis);
    for (const Scan& changes : singles) {
      scan(changes);
    }
    if (advice_.ways.empty()) {
      find_pairs(singles);
    }
    std::stable_sort(advice_.ways.begin(), advice_.ways.end(), [](const Way& a, const Way& b) {
      return burden_of(a) < burden_of(b);
    });
  }
  find_gains(basis);
  return std::move(advice_);
}

}  // namespace

Result<DateAdvice> advise(const AdviceRequest& request,
                          const RecipeBook& book,
                          const AirRecord& air,
                          const Replanning& replanning,
                          const AdviceWatch& watch) {
  return Adviser(request, book, air, replanning, watch).run();
}

}  // namespace coatwright
