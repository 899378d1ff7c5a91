#pragma once

#include <string>

#include <date/date.h>

namespace coatwright {

/// "Friday 5 March 2027"; zone.h has the short forms.
[[nodiscard]] std::string long_date(date::local_days day);

}  // namespace coatwright
