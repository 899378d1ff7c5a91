#include "report/air_range.h"

#include <algorithm>

#include <fmt/format.h>

#include "air/moist_air.h"
#include "base/quantity_text.h"
#include "report/plan_words.h"

namespace coatwright {
namespace {

// "14.0 to 19.0 C" of "14.0 C" and "19.0 C"; one of them where both read the same.
std::string from_to(const std::string& low, const std::string& high) {
  return low == high ? low : low.substr(0, low.rfind(' ')) + " to " + high;
}

}  // namespace

void AirRange::add(Temperature temperature, RelativeHumidity humidity) {
  coldest_ = coldest_ ? std::min(*coldest_, temperature) : temperature;
  warmest_ = warmest_ ? std::max(*warmest_, temperature) : temperature;
  driest_ = driest_ ? std::min(*driest_, humidity) : humidity;
  dampest_ = dampest_ ? std::max(*dampest_, humidity) : humidity;
}

void AirRange::add(AirOrigin origin) {
  const auto place = std::lower_bound(origins_.begin(), origins_.end(), origin);
  if (place == origins_.end() || *place != origin) {
    origins_.insert(place, origin);
  }
}

std::string AirRange::text(UnitSystem units) const {
  return fmt::format(
      "{}, {}",
      from_to(temperature_text(*coldest_, units), temperature_text(*warmest_, units)),
      from_to(show_humidity(*driest_), show_humidity(*dampest_)));
}

std::string AirRange::origins_text() const {
  std::string text;
  for (const AirOrigin origin : origins_) {
    text += (text.empty() ? "" : ", ") + std::string(name_of(origin));
  }
  return text;
}

AirRange air_between(const Plan& plan, Time from, Time to) {
  AirRange range;
  for (const AirKnot& knot : plan.air) {
    if (from <= knot.at && knot.at <= to) {
      range.add(knot.temperature,
                relative_humidity_from_humidity_ratio(knot.temperature, knot.ratio));
    }
  }
  for (const PlanStep& step : plan.steps) {
    if (from <= step.start && step.start < to) {
      range.add(step.air.temperature, step.air.humidity);
      range.add(step.air.origin);
    }
  }
  for (const AirSpan& span : air_spans(plan, from, to)) {
    range.add(span.origin);
  }
  return range;
}

std::vector<AirSpan> air_spans(const Plan& plan, Time from, Time to) {
  std::vector<AirSpan> spans;
  for (std::size_t i = 0; i + 1 < plan.air.size(); ++i) {
    const Time begin = std::max(plan.air[i].at, from);
    const Time end = std::min(plan.air[i + 1].at, to);
    if (begin >= end) {
      continue;
    }
    if (!spans.empty() && spans.back().origin == plan.air[i].origin) {
      spans.back().to = end;
    } else {
      spans.push_back({begin, end, plan.air[i].origin});
    }
  }
  return spans;
}

}  // namespace coatwright
