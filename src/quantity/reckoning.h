#pragma once

#include <optional>
#include <string>

#include "quantity/quantity.h"

/// How an amount comes about, in a line; a plan keeps it with the amount.
namespace coatwright {

/// "3 coats on 1.90 m2, 100 um wet, 60 % of it on the wood with an HVLP gun".
/// @param units none: both, the US ones in brackets.
[[nodiscard]] std::string reckoning_of(const CoatGroup& group, std::optional<UnitSystem> units);

/// All groups of an amount, and the waste on top.
[[nodiscard]] std::string reckoning_of(const ProductAmount& amount,
                                       std::optional<UnitSystem> units);

}  // namespace coatwright
