#pragma once

#include <string>
#include <vector>

#include "report/plan_words.h"

namespace coatwright {

/// When the piece may be used, what is needed, warnings, what holds the plan up, and the last word.
[[nodiscard]] std::string calendar_foot(const PlanView& view);

/// The stages after the last coats, by their time.
[[nodiscard]] std::vector<const Milestone*> milestones_in_order(const Plan& plan);

/// "Sideboard, top: light use": what may be done from then on, and with what where that is not
/// clear.
[[nodiscard]] std::string milestone_text(const PlanView& view, const Milestone& milestone);

/// A product and what its amount rests on.
[[nodiscard]] std::string quantity_text(const PlannedQuantity& quantity);

/// What must be begun, for which products, and how long before the first coat.
[[nodiscard]] std::string preparation_text(const PlanView& view, const PlanPreparation& one);

}  // namespace coatwright
