#pragma once

#include <optional>
#include <string>
#include <vector>

#include "air/air_record.h"
#include "recipe/defect.h"

namespace coatwright {

/// The time from a coat to its critical stage, in which the air tells on it.
struct OpenFilm {
  Time from;
  Time to;
  Time now;                         ///< Air to come is not looked at.
  std::optional<AirState> at_coat;  ///< As it was kept with the coat; counts where the record does
                                    ///< not rest on something more trusted by now.
};

/// The air beyond what a product takes, at its worst while the film was open.
struct AirShortfall {
  FaultSign sign = FaultSign::kColdAir;
  Time at;               ///< The worst moment.
  double by = 0;         ///< Beyond the limit, in its own unit.
  bool clear = false;    ///< The limit bars a coat; else it is a caution that is not undercut far.
  bool measured = true;  ///< Not the usual day, which stands where nothing is known.
  std::string text;      ///< Part of a sentence, with its figures.
  std::string source;    ///< Of the limit.
};

/// Looks at the air every five minutes. @return each sign at most once.
[[nodiscard]] std::vector<AirShortfall> air_shortfalls(const Product& product,
                                                       const OpenFilm& film,
                                                       const AirRecord& air);

}  // namespace coatwright
