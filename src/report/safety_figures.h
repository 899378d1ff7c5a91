#pragma once

#include <string>
#include <vector>

#include "base/zone.h"
#include "plan/plan.h"
#include "safety/safety_sheet.h"
#include "safety/storage_limits.h"

/// The figures of a safety sheet in words, an item each.
namespace coatwright {

/// A coat that a sheet speaks of.
struct SheetCoat {
  std::string piece;       ///< Of which; empty where there is one, or none.
  int coat = 0;            ///< Its number; 0: none.
  std::optional<Time> at;  ///< None: it is not planned yet.
  PlanVapour vapour;
};

struct SafetyFigures {
  std::vector<SheetCoat> coats;
  std::vector<FanRun> runs;
  FinishingRoom room;
  std::optional<AirFlow> fan_needed;  ///< As of a PlanRoom.
};

/// The coats that set most vapour free, what the room's air comes to, and when the fan runs; for
/// products without a piece what a litre of each sets free.
[[nodiscard]] std::vector<std::string> figure_lines(const SafetyFigures& figures,
                                                    const SafetySheet& sheet,
                                                    const Zone& zone,
                                                    UnitSystem units);

/// Flash point and fire category of each product, by its number on the sheet.
[[nodiscard]] std::vector<std::string> label_lines(const SafetySheet& sheet, UnitSystem units);

/// What will stand there in liquids that burn, and which limits that exceeds.
[[nodiscard]] std::vector<std::string> storage_lines(const std::vector<StoredLiquid>& liquids,
                                                     bool in_cabinet,
                                                     UnitSystem units);

}  // namespace coatwright
