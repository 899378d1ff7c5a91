#include "plan/advice_change.h"

#include <algorithm>
#include <array>

#include "air/changed_air.h"

namespace coatwright {
namespace {

// Air before the first step matters only through the board that lags it.
constexpr std::chrono::hours kAirBefore{6};

date::local_days day_of(Time time, const Zone& zone) {
  return date::floor<date::days>(zone.to_local(time));
}

/// The earliest moment that a plan may ask the air about.
Time first_moment(const ShopRequest& shop) {
  Time first = shop.from;
  for (const JobRequest& job : shop.jobs) {
    for (const PartRequest& part : job.parts) {
      if (!part.finish.log.empty()) {
        first = std::min(first, part.finish.log.front().at);
      }
    }
  }
  return first - kAirBefore;
}

void lengthen_days(std::vector<StaffedHours>& hours, int by, const Zone& zone) {
  for (std::size_t i = 0; i < hours.size(); ++i) {
    Interval& open = hours[i].open;
    const date::local_days day = day_of(open.start, zone);
    if (i + 1 < hours.size() && day_of(hours[i + 1].open.start, zone) == day) {
      continue;
    }
    const Time midnight = zone.to_time_leniently(LocalTime(day + date::days(1)));
    open.end = std::max(open.end, std::min(open.end + std::chrono::hours(by), midnight));
  }
}

int usual_people(const std::vector<StaffedHours>& hours) {
  return hours.empty() ? 1 : hours.front().people;
}

void add_openings(std::vector<StaffedHours>& hours, const std::vector<Interval>& openings) {
  const int people = usual_people(hours);
  for (const Interval& open : openings) {
    hours.push_back({open, people});
  }
  std::sort(hours.begin(), hours.end(), [](const StaffedHours& a, const StaffedHours& b) {
    return a.open.start < b.open.start;
  });
}

void add_people(std::vector<StaffedHours>& hours, int more) {
  for (StaffedHours& one : hours) {
    one.people += more;
  }
}

/// Parts of a piece that have the schedule get the other one.
void put_schedule(ShopRequest& shop, const Change& change) {
  for (JobRequest& job : shop.jobs) {
    for (PartRequest& part : job.parts) {
      if (job.name == change.piece && part.finish.schedule->name == change.was) {
        part.finish.schedule = change.schedule.get();
      }
    }
  }
}

void put_start(ShopRequest& shop, const std::vector<StaffedHours>& earlier, const Change& change) {
  if (change.start < shop.from) {
    shop = begun_at(shop, earlier, change.start);
  }
  for (JobRequest& job : shop.jobs) {
    const bool is_meant = change.piece.empty() || job.name == change.piece;
    if (is_meant && job.earliest && *job.earliest > change.start) {
      job.earliest = change.start;
    }
  }
}

void put_more(std::optional<int>& count, int more) {
  count = count.value_or(0) + more;
}

}  // namespace

std::string_view name_of(ChangeKind kind) {
  constexpr std::array<std::string_view, 11> kNames = {"warmer",
                                                       "drier",
                                                       "earlier-start",
                                                       "longer-hours",
                                                       "day-more",
                                                       "rack-places-more",
                                                       "bench-more",
                                                       "spray-place-more",
                                                       "person-more",
                                                       "other-schedule",
                                                       "coat-fewer"};
  return kNames.at(static_cast<std::size_t>(kind));
}

WorkAndAir with_change(const WorkAndAir& basis,
                       const std::vector<StaffedHours>& earlier,
                       const Change& change) {
  WorkAndAir other = basis;
  ShopRequest& shop = other.shop;
  const Interval span = {shop.from, shop.horizon};
  switch (change.kind) {
    case ChangeKind::kWarmer:
      other.air = warmed(
          other.air, first_moment(shop), span, TemperatureDifference::from_kelvin(change.amount));
      break;
    case ChangeKind::kDrier:
      other.air =
          dried(other.air, first_moment(shop), span, RelativeHumidity::from_percent(change.amount));
      break;
    case ChangeKind::kEarlierStart:
      put_start(shop, earlier, change);
      break;
    case ChangeKind::kLongerHours:
      lengthen_days(shop.hours, change.amount, other.air.zone());
      break;
    case ChangeKind::kDayMore:
      add_openings(shop.hours, change.openings);
      break;
    case ChangeKind::kRackPlacesMore:
      put_more(shop.resources.rack_places, change.amount);
      break;
    case ChangeKind::kBenchMore:
      put_more(shop.resources.benches, change.amount);
      break;
    case ChangeKind::kSprayPlaceMore:
      put_more(shop.resources.spray_places, change.amount);
      break;
    case ChangeKind::kPersonMore:
      add_people(shop.hours, change.amount);
      break;
    case ChangeKind::kOtherSchedule:
    case ChangeKind::kCoatFewer:
      put_schedule(shop, change);
      break;
  }
  return other;
}

ShopRequest begun_at(const ShopRequest& shop,
                     const std::vector<StaffedHours>& earlier,
                     Time start) {
  ShopRequest other = shop;
  other.from = start;
  other.hours.clear();
  for (const auto* hours : {&earlier, &shop.hours}) {
    for (StaffedHours one : *hours) {
      one.open.start = std::max(one.open.start, start);
      if (one.open.start < one.open.end) {
        other.hours.push_back(one);
      }
    }
  }
  return other;
}

Hours presence_between(const std::vector<StaffedHours>& hours, Interval span) {
  std::chrono::seconds sum{0};
  for (const StaffedHours& one : hours) {
    const Time start = std::max(one.open.start, span.start);
    const Time end = std::min(one.open.end, span.end);
    sum += start < end ? (end - start) * one.people : std::chrono::seconds(0);
  }
  return Hours::from_seconds(sum);
}

}  // namespace coatwright
