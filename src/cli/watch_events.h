#pragma once

#include <string>
#include <vector>

#include "base/time.h"
#include "base/zone.h"
#include "plan/what_now.h"

namespace coatwright {

/// What `watch` rings the bell for between two looks: a step that may be done now and could not
/// before, and one whose window has come to close within the hour; a line each.
/// @param before the look before; null at the first one, where only what is about to close rings.
[[nodiscard]] std::vector<std::string> watch_events(const std::vector<PieceNow>* before,
                                                    Time before_at,
                                                    const std::vector<PieceNow>& after,
                                                    Time after_at,
                                                    const Zone& zone);

}  // namespace coatwright
