#include "air/air_record.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

namespace coatwright {
namespace {

using Knots = std::vector<AirKnot>;

// What is more trusted is laid first; what is laid later only fills what is left open. The two
// measured origins complement each other. The usual day is no layer: it fills the gaps.
int layer_of(AirOrigin origin) {
  switch (origin) {
    case AirOrigin::kReading:
    case AirOrigin::kLogger:
      return 0;
    case AirOrigin::kForecast:
      return 1;
    case AirOrigin::kOutdoors:
      return 2;
    case AirOrigin::kUsualDay:
      break;
  }
  assert(false && "the usual day is not an entry");
  return 2;
}

bool earlier(const AirKnot& a, const AirKnot& b) {
  return a.at < b.at;
}

Knots::const_iterator first_after(const Knots& knots, Time time) {
  return std::upper_bound(
      knots.begin(), knots.end(), time, [](Time t, const AirKnot& knot) { return t < knot.at; });
}

// An entry covers its reach to both sides. That also covers everything between two entries at most
// the longest gap apart.
static_assert(2 * AirRecord::kReach >= AirRecord::kLongestGap);
bool covers(const Knots& knots, Time time) {
  const auto next = first_after(knots, time);
  return (next != knots.end() && next->at - time <= AirRecord::kReach) ||
         (next != knots.begin() && time - (next - 1)->at <= AirRecord::kReach);
}

AirKnot knot_of(const AirEntry& entry) {
  return {entry.at,
          entry.temperature,
          humidity_ratio_from_relative_humidity(entry.temperature, entry.humidity),
          entry.origin};
}

// By time; of entries of one moment the most trusted comes last, and of equals the last given.
void sort_by_time_and_trust(std::vector<AirEntry>& entries) {
  const auto comes_first = [](const AirEntry& a, const AirEntry& b) {
    return a.at != b.at ? a.at < b.at : a.origin > b.origin;
  };
  if (!std::is_sorted(entries.begin(), entries.end(), comes_first)) {
    std::stable_sort(entries.begin(), entries.end(), comes_first);
  }
}

// The entries of one layer at times that `laid` leaves open.
Knots open_part_of_layer(const std::vector<AirEntry>& entries, int layer, const Knots& laid) {
  Knots part;
  for (const AirEntry& entry : entries) {
    if (layer_of(entry.origin) != layer || covers(laid, entry.at)) {
      continue;
    }
    if (!part.empty() && part.back().at == entry.at) {
      part.pop_back();
    }
    part.push_back(knot_of(entry));
  }
  return part;
}

Knots lay(std::vector<AirEntry> entries) {
  sort_by_time_and_trust(entries);
  Knots laid;
  for (const int layer : {0, 1, 2}) {
    Knots part = open_part_of_layer(entries, layer, laid);
    if (laid.empty()) {
      laid = std::move(part);
      continue;
    }
    const auto middle = laid.insert(laid.end(), part.begin(), part.end());
    std::inplace_merge(laid.begin(), middle, laid.end(), earlier);
  }
  return laid;
}

// A point on the line between two corners, in the stretch of `origin`.
AirKnot on_line(const AirKnot& from, const AirKnot& to, Time time, AirOrigin origin) {
  const double x = static_cast<double>((time - from.at).count()) /
                   static_cast<double>((to.at - from.at).count());
  const double kelvin = std::lerp(from.temperature.kelvin(), to.temperature.kelvin(), x);
  const double ratio = std::lerp(from.ratio.kg_per_kg(), to.ratio.kg_per_kg(), x);
  return {time, Temperature::from_kelvin(kelvin), HumidityRatio::from_kg_per_kg(ratio), origin};
}

}  // namespace

std::string_view name_of(AirOrigin origin) {
  constexpr std::array<std::string_view, 5> kNames = {
      "reading", "logger", "forecast", "outdoors", "usual day"};
  return kNames.at(static_cast<std::size_t>(origin));
}

AirRecord::AirRecord(std::vector<AirEntry> entries, UsualDay usual, Zone zone)
    : usual_(std::move(usual)), zone_(zone) {
  for (AirEntry& entry : entries) {
    if (entry.origin == AirOrigin::kOutdoors) {
      entry = shop_air_from_outdoors(entry, usual_, zone_);
    }
  }
  entries_ = lay(std::move(entries));
}

AirState AirRecord::at(Time time) const {
  const AirKnot knot = knot_at(time);
  const auto next = first_after(entries_, time);
  const bool at_entry = next != entries_.begin() && (next - 1)->at == time;
  const auto humidity = relative_humidity_from_humidity_ratio(knot.temperature, knot.ratio);
  return {knot.temperature,
          humidity,
          dew_point(knot.temperature, humidity),
          at_entry ? (next - 1)->origin : knot.origin};
}

std::vector<AirKnot> AirRecord::knots(Time from, Time to) const {
  assert(from <= to);
  Knots corners{knot_at(from)};
  for (auto next = first_after(entries_, from);; ++next) {
    add_corners_before(next, {from, to}, corners);
    if (next == entries_.end() || next->at >= to) {
      break;
    }
    corners.push_back(*next);
    if (usual_rules_before(next + 1)) {
      corners.back().origin = AirOrigin::kUsualDay;
    }
  }
  if (from < to) {
    corners.push_back(knot_at(to));
  }
  return corners;
}

AirKnot AirRecord::usual_knot(Time time) const {
  const auto air = usual_.at(time, zone_);
  return {time, air.temperature, air.ratio, AirOrigin::kUsualDay};
}

AirKnot AirRecord::knot_at(Time time) const {
  const auto next = first_after(entries_, time);
  if (!usual_rules_before(next)) {
    return on_line(*(next - 1), *next, time, (next - 1)->origin);
  }
  const Interval usual = usual_stretch(next);
  if (time < usual.start) {
    return on_line(*(next - 1), usual_knot(usual.start), time, AirOrigin::kUsualDay);
  }
  if (time > usual.end) {
    return on_line(usual_knot(usual.end), *next, time, AirOrigin::kUsualDay);
  }
  return usual_knot(time);
}

// Whether there is a gap before `next`; before the first and after the last entry there is.
bool AirRecord::usual_rules_before(Knots::const_iterator next) const {
  return next == entries_.begin() || next == entries_.end() ||
         next->at - (next - 1)->at > kLongestGap;
}

// The part of the gap before `next` in which the usual day is not run into.
Interval AirRecord::usual_stretch(Knots::const_iterator next) const {
  return {next == entries_.begin() ? Time::min() : (next - 1)->at + kReach,
          next == entries_.end() ? Time::max() : next->at - kReach};
}

// The corners of the stretch that ends at entry `next` which lie strictly within `within`: there
// are some only where the usual day fills a gap.
void AirRecord::add_corners_before(Knots::const_iterator next, Interval within, Knots& into) const {
  if (!usual_rules_before(next)) {
    return;
  }
  const auto add = [&](Time time) {
    if (within.start < time && time < within.end) {
      into.push_back(usual_knot(time));
    }
  };
  const Interval usual = usual_stretch(next);
  add(usual.start);
  const Time end = std::min(usual.end, within.end);
  for (Time time = std::max(usual.start, within.start); time < end;) {
    time = std::min(usual_.corner_after(time, zone_), end);
    add(time);
  }
}

}  // namespace coatwright
