#pragma once

#include <functional>

#include "scheduling/windows.h"

namespace coatwright {

/// The least time from a start to a moment that follows from it, over all starts in a window.
/// @param moment never decreases with the start. @return a value that is not above the least; it
/// is the least where few starts have to be looked at, and else close to it.
[[nodiscard]] Tick least_span(const StartGrid& grid,
                              Tick low,
                              Tick high,
                              const std::function<Tick(Tick)>& moment);

}  // namespace coatwright
