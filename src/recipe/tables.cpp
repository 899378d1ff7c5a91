#include "recipe/tables.h"

namespace coatwright {

Hours WorkingTime::duration(Area area, double probability) const {
  const Hours fixed = Hours::from_minutes(fixed_minutes);
  if (low_minutes_per_m2 <= 0.0 || area.square_metres() <= 0.0) {
    return fixed;
  }
  const DurationRange per_square_metre = {Hours::from_minutes(low_minutes_per_m2),
                                          Hours::from_minutes(high_minutes_per_m2)};
  return fixed + per_square_metre.quantile(probability) * area.square_metres();
}

}  // namespace coatwright
