#pragma once

#include <array>
#include <optional>
#include <span>
#include <string_view>

#include "drying/stage.h"

/// What a thinner or retarder does to the stages that wait for solvent.
namespace coatwright {

/// How fast a solvent evaporates beside n-butyl acetate (the scale of ASTM D3539).
struct RelativeEvaporation {
  std::string_view solvent;  ///< As antoine_of() knows it.
  double rate;               ///< n-butyl acetate = 1.
  std::string_view how;      ///< "read", "from memory", "derived", "definition".
};

/// @return nothing for a solvent that the table lacks.
[[nodiscard]] std::optional<RelativeEvaporation> relative_evaporation_of(std::string_view solvent);
/// All that are known.
[[nodiscard]] std::span<const RelativeEvaporation> relative_evaporations();

/// A product thinned with a solvent.
struct Thinning {
  RelativeEvaporation thinner;
  double share = 0.0;  ///< Of the liquid's solvent, 0 .. 0.5.

  /// By how much a stretch that waits for a solvent takes longer (above 1: a retarder) or less
  /// long: of the same wet film the share leaves at the thinner's own rate,
  ///     1 - share + share E(solvent) / E(thinner).
  /// Source: blends by volume shares over relative rates, derived; that the solvents do not hold
  /// each other back is common practice. @return 1 where the solvent's rate is not known.
  [[nodiscard]] double factor_for(std::string_view solvent) const;
  /// A stage with its evaporating phases so scaled; the others stay.
  [[nodiscard]] StageTiming applied_to(const StageTiming& timing) const;
};

}  // namespace coatwright
