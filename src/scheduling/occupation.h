#pragma once

#include <vector>

#include "scheduling/start_variables.h"

namespace coatwright {

/// So much of a resource from one moment up to, and without, another.
struct Occupation {
  int amount = 1;
  Endpoint begin;
  Endpoint end;

  /// Never longer or shorter, whenever it starts.
  [[nodiscard]] bool has_fixed_length() const {
    return begin.variable == end.variable && !begin.lag.function && !end.lag.function;
  }
};

/// All that a project's activities and holds take of one resource, but for what takes no time.
[[nodiscard]] std::vector<Occupation> occupations_of(const Project& project, int resource);

/// A stretch of an exclusion. @return with amount 1.
[[nodiscard]] Occupation occupation_of(const Stretch& stretch);

}  // namespace coatwright
