#include "plan/due_dates.h"

#include <algorithm>

namespace coatwright {

Time last_due_of(const ShopRequest& shop) {
  Time last = shop.from;
  for (const JobRequest& job : shop.jobs) {
    last = std::max(last, job.due.value_or(last));
  }
  return last;
}

}  // namespace coatwright
