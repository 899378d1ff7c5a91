#pragma once

#include <cstdint>
#include <string>

#include "scheduling/project.h"

namespace coatwright {

/// What the model benchmarks/shop_project.mzn makes small.
enum class OutsideGoal { kLateness = 1, kEnd = 2 };

/// A project as data of benchmarks/shop_project.mzn, in slots of its grain. Moments off the grain
/// are rounded to what means the same for starts on it: up for what opens, down for what closes.
/// Lengths, offsets and capacity steps must be on the grain.
[[nodiscard]] std::string shop_data(const Project& project);
/// The lines that follow it. @param lateness_limit in slots times weight; below 0: none.
[[nodiscard]] std::string goal_data(OutsideGoal goal, std::int64_t lateness_limit);

}  // namespace coatwright
