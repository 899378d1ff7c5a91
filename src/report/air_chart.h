#pragma once

#include <string>
#include <vector>

#include "air/air_record.h"
#include "base/units.h"
#include "base/zone.h"

namespace coatwright {

/// The air at a moment, as a row of a table or a column of a chart.
struct AirAt {
  Time at;
  AirState state;
};

/// Draws temperature ('*') and dew point ('o') over time, one column a moment, and a scale with the
/// local clock beneath.
/// @param points in order, evenly spaced, at most 68 for a page of 80 columns; not empty.
/// @param now    its column is marked with '|'; outside the points none is.
[[nodiscard]] std::string air_chart(const std::vector<AirAt>& points,
                                    Time now,
                                    const Zone& zone,
                                    UnitSystem units);

}  // namespace coatwright
