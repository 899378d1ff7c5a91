#pragma once

#include <string>
#include <vector>

#include "report/plan_words.h"

namespace coatwright {

/// What is planned, whether it fits, and how sure that is.
[[nodiscard]] std::string calendar_head(const PlanView& view);

/// The pieces' names; "Plan" where there are none.
[[nodiscard]] std::string title_of(const Plan& plan);

/// Whether it fits, in a sentence.
[[nodiscard]] std::string verdict_of(const PlanView& view);

/// Coats that are on are not yet a piece that can go out: a sentence for each that may be handled
/// only after the date.
[[nodiscard]] std::vector<std::string> handling_of(const PlanView& view);

/// "1.90 m2 a face, 2 faces, one after the other".
[[nodiscard]] std::string area_of(const PlanPiece& piece, UnitSystem units);

}  // namespace coatwright
