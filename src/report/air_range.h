#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan/plan.h"

namespace coatwright {

/// The air of a stretch of time, from its coldest to its warmest and its driest to its dampest
/// moment that the plan knows, and what it rests on.
class AirRange {
 public:
  void add(Temperature temperature, RelativeHumidity humidity);
  void add(AirOrigin origin);
  [[nodiscard]] bool empty() const { return !coldest_; }
  /// "14.0 to 19.0 C, 50 to 62 %". Not for an empty range.
  [[nodiscard]] std::string text(UnitSystem units) const;
  /// "logger, usual day", most trusted first.
  [[nodiscard]] std::string origins_text() const;

 private:
  std::optional<Temperature> coldest_;
  std::optional<Temperature> warmest_;
  std::optional<RelativeHumidity> driest_;
  std::optional<RelativeHumidity> dampest_;
  std::vector<AirOrigin> origins_;
};

/// @return the air from `from` to `to` by the plan's corners and the air at its steps' starts.
[[nodiscard]] AirRange air_between(const Plan& plan, Time from, Time to);

/// A stretch that rests on one origin.
struct AirSpan {
  Time from;
  Time to;
  AirOrigin origin;
};

/// @return the stretches from `from` to `to` in order; none where the plan has no air.
[[nodiscard]] std::vector<AirSpan> air_spans(const Plan& plan, Time from, Time to);

}  // namespace coatwright
