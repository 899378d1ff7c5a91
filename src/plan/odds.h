#pragma once

#include "air/air_record.h"
#include "plan/plan.h"

namespace coatwright {

/// Plays a plan through with coats that dry faster or slower: of the variance of a range's
/// logarithm kShopShareOfVariance is the shop's, the same for all coats, the rest is each coat's
/// own; a window's closing shares the shop's part and has a part of its own. The air is as the plan
/// has it. What is not ready is put off, and what comes after it on the same parts; in a shop's
/// plan nobody works at two things at once, and no spray place or bench is taken twice, those that
/// the plan has earlier first. Rack and dust keep nothing waiting here. Source: Monte Carlo over
/// the model of joint_chance(), docs/formulas.md.
/// @param plan complete or not; its steps are taken as they stand. @param trials at least 1.
/// @param seed the same one gives the same figures on every machine.
[[nodiscard]] PlanOdds odds_of(const Plan& plan, const AirRecord& air, int trials, unsigned seed);

}  // namespace coatwright
