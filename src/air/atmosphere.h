#pragma once

#include "base/result.h"
#include "base/units.h"

namespace coatwright {

/// Air pressure of the standard atmosphere; weather moves the true one by some 3 % either way.
/// @param altitude above sea level, -5000 .. 11000 m.
/// @return the pressure. Errors: kOutOfRange outside of that.
/// Source: [ashrae2017] ch. 1 eq. 3; the same atmosphere as [iso_2533].
/// Accuracy: within 1 Pa of [ashrae2017] ch. 1 table 1.
[[nodiscard]] Result<Pressure> pressure_at_altitude(Length altitude);

}  // namespace coatwright
