#pragma once

#include <string>
#include <vector>

#include "base/time.h"
#include "base/zone.h"

namespace coatwright {

/// "Fri 5 March 16:00-20:00; Sat 6 to Sun 7 March 09:00-18:00": days with the same hours together.
/// @param hours in order. @param until openings that begin later are left out.
[[nodiscard]] std::string shop_hours_text(const std::vector<Interval>& hours,
                                          Time until,
                                          const Zone& zone);

/// @return the openings that begin on the local day of `time`: "08:00-12:00, 13:00-17:00", or "".
[[nodiscard]] std::string shop_hours_on_day(const std::vector<Interval>& hours,
                                            Time time,
                                            const Zone& zone);

}  // namespace coatwright
