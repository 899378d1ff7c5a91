#pragma once

#include <string_view>

#include "base/result.h"
#include "base/zone.h"

namespace coatwright {

/// Which way a weekday without a date looks.
enum class Direction {
  kBack,     ///< Something is logged: the latest such time that is not after now.
  kForward,  ///< Something is planned: the first such time that is not before now.
};

/// Reads a time as people write it: `2027-03-05T16:00`, the same with a blank, with `Z` or
/// `+01:00`, `2027-03-05` (midnight), `Fri 16:00`, `Friday 16:00`, `today 9:00`, `yesterday 17:30`,
/// `tomorrow 9:00`, `9:00` (today), `-90min`, `+2h`, `+1d`, `now`; `4:30pm` is a clock time too.
/// @param now   what "now" is.
/// @return the moment.
/// Errors: kTime when it cannot be read, or does not exist or exists twice in the zone.
[[nodiscard]] Result<Time> parse_time(std::string_view text,
                                      Time now,
                                      const Zone& zone,
                                      Direction direction);

}  // namespace coatwright
