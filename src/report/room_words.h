#pragma once

#include <string>

#include "base/units.h"
#include "plan/plan.h"
#include "report/plan_words.h"

/// What a plan says of vapour and of the air of the finishing room. All of it is by calculation,
/// for air that is well mixed, and says so.
namespace coatwright {

/// How it must be read; stands with every figure of the room's air.
inline constexpr std::string_view kByCalculation =
    "By calculation only, for well-mixed air; near the gun and low over the floor there is more. "
    "Measure.";

/// "7 % of the lower explosive limit", with the quarter named where it is passed.
[[nodiscard]] std::string explosive_share_text(double of_limit);
/// "5.2 times the limits of exposure" or "within the limits of exposure (0.4 of them)".
[[nodiscard]] std::string exposure_text(double of_limits);

/// What a coat does to the room's air, in a line of the calendar; empty where that is not known.
[[nodiscard]] std::string vapour_line(const Plan& plan, const PlanStep& step);

/// Room and fan, when it runs, and when the air may be breathed, an item each; empty where the room
/// is not known.
[[nodiscard]] std::vector<std::string> room_lines(const PlanView& view);
/// The same as the foot of a calendar.
[[nodiscard]] std::string room_section(const PlanView& view);
/// "Fan on from Sun 7 Mar 09:13, off not before Sun 7 Mar 10:34; ...".
[[nodiscard]] std::string run_text(const FanRun& run, const Zone& zone);

/// Every coat's vapour with formula, inputs and their sources.
[[nodiscard]] std::string vapour_explained(const PlanView& view);
/// The same of one coat. @param room of the plan or of the shop.
[[nodiscard]] std::string vapour_explained(const CoatVapour& coat,
                                           const FinishingRoom& room,
                                           UnitSystem units);

/// The room as the shop stated it, in a sentence, with what of its fan counts.
[[nodiscard]] std::string room_text(const FinishingRoom& room, bool flammable, UnitSystem units);

}  // namespace coatwright
