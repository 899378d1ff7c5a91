#pragma once

#include <functional>

#include "scheduling/windows.h"

namespace coatwright {

/// The least time from a start to a moment that follows from it, over all starts in a window.
/// @param moment never decreases with the start. @return a value that is not above the least, and
/// the least itself unless very many starts had to be looked at; 0 where there is no start.
[[nodiscard]] Tick least_span(const StartGrid& grid,
                              Tick low,
                              Tick high,
                              const std::function<Tick(Tick)>& moment);

}  // namespace coatwright
