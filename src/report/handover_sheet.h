#pragma once

#include "plan/handover_card.h"
#include "report/sheet.h"

namespace coatwright {

/// A card with how its times and temperatures are shown.
struct HandoverView {
  const HandoverCard& card;
  const Zone& zone;
  UnitSystem units;
};

/// The card as a sheet for the person who receives the piece: one side where few finishes are told
/// apart. @param explain whether a page for the maker follows, on what the days rest.
[[nodiscard]] Sheet handover_sheet(const HandoverView& view, bool explain);

}  // namespace coatwright
