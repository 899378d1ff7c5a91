#pragma once

#include <chrono>
#include <cstddef>
#include <optional>
#include <vector>

#include "base/result.h"
#include "base/zone.h"

namespace coatwright {

/// A row's time before it is a moment.
struct LocalStamp {
  std::size_t line;
  LocalTime local;
  std::optional<std::chrono::seconds> offset;  ///< Where the file gives it, the zone is not asked.
};

/// Turns the times of a file's rows into moments. The repeated autumn hour is told apart by the
/// order of the rows: until they step back they show its first pass, from there on its second.
/// @param stamps in the order of time as far as the file keeps one: oldest first.
/// @return a moment for each; nothing for a time that does not exist (spring gap).
/// Errors: kInputFile with the question when the order of the rows does not decide it.
[[nodiscard]] Result<std::vector<std::optional<Time>>> moments_of_rows(
    const std::vector<LocalStamp>& stamps, const Zone& zone);

}  // namespace coatwright
