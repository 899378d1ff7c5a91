#include "air/changed_air.h"

#include <algorithm>
#include <cassert>
#include <functional>
#include <vector>

namespace coatwright {
namespace {

using Change = std::function<AirEntry(AirEntry)>;

// Corners are no further apart than this, so that no gap between two is filled by the usual day.
constexpr std::chrono::minutes kFinest{60};
// Of one origin, so that none of them takes the place of another.
constexpr AirOrigin kOrigin = AirOrigin::kForecast;

AirEntry entry_of(const AirKnot& knot) {
  return {knot.at,
          knot.temperature,
          relative_humidity_from_humidity_ratio(knot.temperature, knot.ratio),
          kOrigin};
}

/// Adds the air's corners from one moment to the next as entries, and moments between them.
void add_entries(const AirRecord& air, Interval span, std::vector<AirEntry>& into) {
  for (const AirKnot& knot : air.knots(span.start, span.end)) {
    while (!into.empty() && knot.at - into.back().at > kFinest) {
      const Time between = into.back().at + kFinest;
      into.push_back(entry_of(air.knots(between, between).front()));
    }
    into.push_back(entry_of(knot));
  }
}

/// The change sets in within a second, and ends within one.
AirRecord changed(const AirRecord& air, Time known_from, Interval during, const Change& change) {
  assert(known_from < during.start && during.start < during.end);
  constexpr std::chrono::seconds kAtOnce{1};
  std::vector<AirEntry> before;
  add_entries(air, {known_from, during.start - kAtOnce}, before);
  std::vector<AirEntry> entries;
  add_entries(air, during, entries);
  std::transform(entries.begin(), entries.end(), entries.begin(), change);
  entries.insert(entries.begin(), before.begin(), before.end());
  const Time after = during.end + kAtOnce;
  entries.push_back(entry_of(air.knots(after, after).front()));
  return {std::move(entries), air.usual_day(), air.zone()};
}

}  // namespace

AirRecord shop_then_house(const AirRecord& shop, Time from, Time moved, const UsualDay& house) {
  std::vector<AirEntry> entries;
  add_entries(shop, {from, moved}, entries);
  return {std::move(entries), house, shop.zone()};
}

AirRecord warmed(const AirRecord& air,
                 Time known_from,
                 Interval during,
                 TemperatureDifference rise) {
  return changed(air, known_from, during, [rise](AirEntry entry) {
    const auto ratio = humidity_ratio_from_relative_humidity(entry.temperature, entry.humidity);
    entry.temperature = std::max(entry.temperature, std::min(entry.temperature + rise, kWarmest));
    entry.humidity = relative_humidity_from_humidity_ratio(entry.temperature, ratio);
    return entry;
  });
}

AirRecord dried(const AirRecord& air, Time known_from, Interval during, RelativeHumidity at_most) {
  return changed(air, known_from, during, [at_most](AirEntry entry) {
    entry.humidity = std::min(entry.humidity, at_most);
    return entry;
  });
}

}  // namespace coatwright
