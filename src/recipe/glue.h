#pragma once

#include <map>
#include <optional>
#include <string>

#include "base/units.h"
#include "drying/rate_law.h"

namespace coatwright {

/// A glue by its generic class: how long it may lie open, how long it stays clamped.
struct Glue {
  std::string name;   ///< Recipe name: "pva-yellow".
  std::string title;  ///< "yellow woodworking glue (aliphatic PVA)".
  Hours open_low;     ///< From spreading until it must be closed, at 23 C; the low end is planned.
  Hours open_high;
  Hours clamp_low;  ///< In clamps, at 23 C.
  Hours clamp_high;
  Hours full_strength;   ///< Until it may be worked hard, at 23 C.
  Temperature at_least;  ///< Wood, glue and air while it sets.
  Temperature at_most;
  RateLaw law;         ///< How clamping shortens and lengthens with the air.
  std::string source;  ///< Of the clamping time.
  std::string law_source;
  std::string open_source = "";
  std::string strength_source = "";
  std::string temperature_source = "";
  std::string how = "";   ///< How the clamping time is known: "read", "from memory" ...
  std::string note = "";  ///< What the figures do not say; empty: nothing.
  /// From closing until the joint may be sanded or planed, at 23 C: until then a line sinks that is
  /// still to lose its water. None: as soon as the clamps are off.
  std::optional<Hours> surface_after = std::nullopt;
  std::string surface_source = "";
};

/// By recipe name.
using Glues = std::map<std::string, Glue>;

}  // namespace coatwright
