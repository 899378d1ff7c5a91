#pragma once

#include <string>

#include "base/units.h"
#include "base/zone.h"
#include "plan/advice.h"

namespace coatwright {

/// Whether the dates hold, how late work may begin, what makes them hold, what a little more of
/// something buys. @return plain text, at most 80 columns.
[[nodiscard]] std::string show_advice(const DateAdvice& advice, const Zone& zone, UnitSystem units);

/// The same as JSON of the format "coatwright/advice/1", as docs/commands/advice.md documents it.
[[nodiscard]] std::string advice_as_json(const DateAdvice& advice, const Zone& zone);

}  // namespace coatwright
