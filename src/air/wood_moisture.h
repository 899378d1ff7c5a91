#pragma once

#include "base/units.h"

namespace coatwright {

/// Moisture content that wood comes to when it stays long in this air, as a fraction of its dry
/// mass.
/// @param temperature -1 .. 93 C (compared up to 54 C); @param humidity 0 .. 1.
/// @return 0 .. about 0.3.
/// Source: [wood_handbook2010] ch. 4 eq. 4-5 (Hailwood and Horrobin, one hydrate), Celsius form.
/// Accuracy: within 0.06 % MC of the handbook's table 4-2, which is itself computed from it. The
/// handbook calls 0.1 % not physically meaningful: the basis is mostly one species, between
/// adsorption and desorption. A later report, [fpl_gtr229], calls the historic data unreliable for
/// scientific use.
[[nodiscard]] double equilibrium_moisture_content(Temperature temperature,
                                                  RelativeHumidity humidity);

}  // namespace coatwright
