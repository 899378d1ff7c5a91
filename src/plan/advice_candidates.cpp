#include "plan/advice_candidates.h"

#include <algorithm>
#include <cmath>
#include <map>

#include <date/date.h>

#include "air/changed_air.h"

namespace coatwright {
namespace {

using date::local_days;
using std::chrono::hours;

constexpr int kMostHoursLonger = 4;
constexpr int kMostPlaces = 6;
constexpr int kMostSingleDays = 8;
constexpr int kMostStarts = 40;
// A dehumidifier in a shop gets no further than about this. Source: judgement.
constexpr int kDriest = 30;
constexpr int kDrierBy = 5;
constexpr double kWorthDrying = 1.0;

// How much a maker minds a change, in degrees of warming. Source: judgement.
constexpr double kBurdenOfDegree = 1.0;
constexpr double kBurdenOfDrying = 1.0;  // of each step of kDrierBy
constexpr double kBurdenOfEarlierStart = 2.0;
constexpr double kBurdenOfEarlierHour = 0.1;
constexpr double kBurdenOfRackPlace = 2.0;
constexpr double kBurdenOfHour = 3.0;
constexpr double kBurdenOfDay = 5.0;
constexpr double kBurdenOfBench = 6.0;
constexpr double kBurdenOfPerson = 10.0;
constexpr double kBurdenOfSprayPlace = 12.0;

Change counted(ChangeKind kind, int amount, double each) {
  Change change;
  change.kind = kind;
  change.amount = amount;
  change.burden = each * amount;
  return change;
}

Scan counted_up(ChangeKind kind, int most, double each) {
  Scan scan;
  for (int amount = 1; amount <= most; ++amount) {
    scan.push_back(counted(kind, amount, each));
  }
  return scan;
}

/// Coldest temperature and dampest humidity up to the horizon.
struct AirEnds {
  Temperature coldest = kWarmest;
  RelativeHumidity dampest = RelativeHumidity::from_fraction(0.0);
};

AirEnds air_ends(const AdviceBasis& basis) {
  AirEnds ends;
  const Time last = std::max(basis.last_due, basis.plan.finish.value_or(basis.last_due));
  for (const AirKnot& knot : basis.air.knots(basis.request.shop.from, last)) {
    ends.coldest = std::min(ends.coldest, knot.temperature);
    ends.dampest =
        std::max(ends.dampest, relative_humidity_from_humidity_ratio(knot.temperature, knot.ratio));
  }
  return ends;
}

Scan warmer(const AirEnds& ends) {
  // The last degree lifts the coldest hour to kWarmest.
  const int most = static_cast<int>(std::ceil((kWarmest - ends.coldest).kelvin() - 1e-6));
  return counted_up(ChangeKind::kWarmer, most, kBurdenOfDegree);
}

Scan drier(const AirEnds& ends) {
  Scan scan;
  const int dampest = static_cast<int>(ends.dampest.percent());
  int steps = 1;
  for (int limit = dampest - dampest % kDrierBy; limit >= kDriest; limit -= kDrierBy) {
    if (limit <= ends.dampest.percent() - kWorthDrying) {
      scan.push_back(counted(ChangeKind::kDrier, limit, 0.0));
      scan.back().burden = kBurdenOfDrying * steps++;
    }
  }
  return scan;
}

using Days = std::map<local_days, std::vector<Interval>>;

Days open_days(const AdviceBasis& basis) {
  const Zone& zone = basis.air.zone();
  Days days;
  for (const StaffedHours& one : basis.request.shop.hours) {
    days[date::floor<date::days>(zone.to_local(one.open.start))].push_back(one.open);
  }
  return days;
}

std::chrono::seconds length_of(const std::vector<Interval>& openings) {
  std::chrono::seconds sum{0};
  for (const Interval& one : openings) {
    sum += one.end - one.start;
  }
  return sum;
}

/// The openings of the longest day, on another day's clock.
std::vector<Interval> usual_openings_on(local_days day, const Days& days, const Zone& zone) {
  const auto longest = std::max_element(days.begin(), days.end(), [](const auto& a, const auto& b) {
    return length_of(a.second) < length_of(b.second);
  });
  std::vector<Interval> openings;
  for (const Interval& one : longest->second) {
    const auto on_day = [&](Time time) {
      return zone.to_time_leniently(LocalTime(day) + (zone.to_local(time) - longest->first));
    };
    openings.push_back({on_day(one.start), on_day(one.end)});
  }
  return openings;
}

Change day_more(const std::vector<local_days>& added, const Days& days, const Zone& zone) {
  Change change = counted(ChangeKind::kDayMore, static_cast<int>(added.size()), kBurdenOfDay);
  for (const local_days day : added) {
    const auto openings = usual_openings_on(day, days, zone);
    change.openings.insert(change.openings.end(), openings.begin(), openings.end());
  }
  return change;
}

/// Days from the start to the date on which nobody is there, the first day not included where it
/// is over already.
std::vector<local_days> closed_days(const AdviceBasis& basis, const Days& days) {
  const Zone& zone = basis.air.zone();
  std::vector<local_days> closed;
  const auto last = date::floor<date::days>(zone.to_local(basis.last_due));
  auto day = date::floor<date::days>(zone.to_local(basis.request.shop.from)) + date::days(1);
  for (; day <= last; day += date::days(1)) {
    if (!days.contains(day)) {
      closed.push_back(day);
    }
  }
  return closed;
}

/// Each closed day alone, then every one of a weekday, then all of them.
Scan days_more(const AdviceBasis& basis) {
  const Days days = open_days(basis);
  if (days.empty()) {
    return {};
  }
  const std::vector<local_days> closed = closed_days(basis, days);
  const Zone& zone = basis.air.zone();
  Scan scan;
  std::map<unsigned, std::vector<local_days>> by_weekday;
  for (const local_days day : closed) {
    if (scan.size() < kMostSingleDays) {
      scan.push_back(day_more({day}, days, zone));
    }
    by_weekday[date::weekday(day).iso_encoding()].push_back(day);
  }
  for (const auto& [weekday, some] : by_weekday) {
    if (some.size() > 1) {
      scan.push_back(day_more(some, days, zone));
    }
  }
  if (by_weekday.size() > 1) {
    scan.push_back(day_more(closed, days, zone));
  }
  return scan;
}

Change start_at(Time start, std::chrono::seconds earlier_by, const std::string& piece) {
  Change change;
  change.kind = ChangeKind::kEarlierStart;
  change.start = start;
  change.start_was = start + earlier_by;
  change.piece = piece;
  change.burden =
      kBurdenOfEarlierStart + kBurdenOfEarlierHour * Hours::from_seconds(earlier_by).hours();
  return change;
}

/// The latest first; so many that they reach from the present start back to the first.
Scan starts_before(const std::vector<StaffedHours>& staffed,
                   Interval span,
                   const std::string& piece) {
  const std::vector<Time> starts = possible_starts(staffed, span);
  const std::size_t stride = starts.size() / kMostStarts + 1;
  Scan scan;
  for (std::size_t back = 1; back <= starts.size(); back += stride) {
    const Time start = starts[starts.size() - back];
    scan.push_back(start_at(start, span.end - start, piece));
  }
  if (!starts.empty() && scan.back().start != starts.front()) {
    scan.push_back(start_at(starts.front(), span.end - starts.front(), piece));
  }
  return scan;
}

void add_earlier_starts(const AdviceBasis& basis, std::vector<Scan>& scans) {
  const ShopRequest& shop = basis.request.shop;
  scans.push_back(starts_before(basis.request.earlier, {shop.made_at, shop.from}, ""));
  for (const JobRequest& job : shop.jobs) {
    if (basis.late.contains(job.name) && job.earliest && *job.earliest > shop.from) {
      scans.push_back(starts_before(shop.hours, {shop.from, *job.earliest}, job.name));
    }
  }
}

void add_resources(const ShopResources& has, int most, std::vector<Scan>& scans) {
  if (has.rack_places) {
    scans.push_back(counted_up(ChangeKind::kRackPlacesMore, most, kBurdenOfRackPlace));
  }
  if (has.benches) {
    scans.push_back(counted_up(ChangeKind::kBenchMore, 1, kBurdenOfBench));
  }
  if (has.spray_places) {
    scans.push_back(counted_up(ChangeKind::kSprayPlaceMore, 1, kBurdenOfSprayPlace));
  }
}

bool several_parts(const ShopRequest& shop) {
  return shop.jobs.size() > 1 || (!shop.jobs.empty() && shop.jobs.front().parts.size() > 1);
}

/// Four of a long scan, evenly spread, its last among them.
Scan thinned(const Scan& scan) {
  constexpr std::size_t kKept = 4;
  const std::size_t count = std::min(kKept, scan.size());
  Scan kept;
  for (std::size_t i = 1; i <= count; ++i) {
    kept.push_back(scan[i * scan.size() / count - 1]);
  }
  return kept;
}

}  // namespace

std::vector<Time> possible_starts(const std::vector<StaffedHours>& staffed, Interval span) {
  std::vector<Time> starts;
  for (const StaffedHours& one : staffed) {
    const Time last = std::min(one.open.end, span.end);
    for (Time start = std::max(one.open.start, span.start); start < last; start += kStartGrain) {
      if (starts.empty() || start > starts.back()) {
        starts.push_back(start);
      }
    }
  }
  return starts;
}

std::vector<Scan> single_changes(const AdviceBasis& basis) {
  const AirEnds ends = air_ends(basis);
  const ShopRequest& shop = basis.request.shop;
  std::vector<Scan> scans = {warmer(ends),
                             drier(ends),
                             counted_up(ChangeKind::kLongerHours, kMostHoursLonger, kBurdenOfHour),
                             days_more(basis)};
  add_earlier_starts(basis, scans);
  add_resources(shop.resources, kMostPlaces, scans);
  if (several_parts(shop)) {
    scans.push_back(counted_up(ChangeKind::kPersonMore, 1, kBurdenOfPerson));
  }
  for (const JobRequest& job : shop.jobs) {
    if (!basis.late.contains(job.name)) {
      continue;
    }
    // One is not more of another: all of them are tried.
    for (Change& other : schedule_changes(basis, job)) {
      scans.push_back({std::move(other)});
    }
    scans.push_back(coat_changes(basis, job));
  }
  std::erase_if(scans, [](const Scan& scan) { return scan.empty(); });
  return scans;
}

std::vector<ChangePair> paired_changes(const std::vector<Scan>& singles) {
  std::vector<ChangePair> pairs;
  for (std::size_t i = 0; i < singles.size(); ++i) {
    for (std::size_t j = i + 1; j < singles.size(); ++j) {
      if (singles[i].front().kind == singles[j].front().kind) {
        continue;
      }
      for (const Change& one : thinned(singles[i])) {
        for (const Change& other : thinned(singles[j])) {
          pairs.push_back({{one, other}, {i, j}});
        }
      }
    }
  }
  std::stable_sort(pairs.begin(), pairs.end(), [](const auto& a, const auto& b) {
    return a.burden() < b.burden();
  });
  return pairs;
}

std::vector<Change> marginal_changes(const AdviceBasis& basis) {
  std::vector<Change> changes = {counted(ChangeKind::kLongerHours, 1, kBurdenOfHour)};
  const AirEnds ends = air_ends(basis);
  if (ends.coldest < kWarmest) {
    changes.push_back(counted(ChangeKind::kWarmer, 1, kBurdenOfDegree));
  }
  if (const Scan dry = drier(ends); !dry.empty()) {
    changes.push_back(dry.front());
  }
  if (const Scan days = days_more(basis); !days.empty()) {
    changes.push_back(days.front());
  }
  std::vector<Scan> places;
  add_resources(basis.request.shop.resources, 1, places);
  for (const Scan& scan : places) {
    changes.push_back(scan.front());
  }
  if (several_parts(basis.request.shop)) {
    changes.push_back(counted(ChangeKind::kPersonMore, 1, kBurdenOfPerson));
  }
  return changes;
}

}  // namespace coatwright
