#include "drying/thinning.h"

#include <algorithm>

namespace coatwright {
namespace {

// n-butyl acetate = 1. Source: [relative_evaporation_lists]; where no list could be read the value
// is from memory, and n-nonane's, which no list has, is derived from vapour pressure times molar
// mass. Lists differ by a fifth and more: mineral spirits from 0.05 to 0.16 by their cut.
constexpr std::array<RelativeEvaporation, 14> kRates = {{
    {"acetone", 5.6, "read"},
    {"methyl ethyl ketone", 3.8, "read"},
    {"ethyl acetate", 4.1, "from memory"},
    {"ethanol", 1.4, "read"},
    {"isopropanol", 1.7, "read"},
    {"n-butanol", 0.45, "from memory"},
    {"toluene", 1.95, "from memory"},
    {"m-xylene", 0.65, "read"},
    {"n-butyl acetate", 1.0, "definition"},
    {"2-butoxyethanol", 0.075, "from memory"},
    {"alpha-pinene", 0.4, "from memory"},
    {"n-octane", 1.4, "read"},
    {"n-nonane", 0.43, "derived"},
    {"n-decane", 0.1, "read"},
}};

}  // namespace

std::span<const RelativeEvaporation> relative_evaporations() {
  return kRates;
}

std::optional<RelativeEvaporation> relative_evaporation_of(std::string_view solvent) {
  const auto found = std::find_if(
      kRates.begin(), kRates.end(), [&](const auto& one) { return one.solvent == solvent; });
  return found == kRates.end() ? std::nullopt : std::optional(*found);
}

double Thinning::factor_for(std::string_view solvent) const {
  const auto own = relative_evaporation_of(solvent);
  return own ? 1.0 - share + share * own->rate / thinner.rate : 1.0;
}

StageTiming Thinning::applied_to(const StageTiming& timing) const {
  StageTiming thinned = timing;
  for (Phase& phase : thinned.phases) {
    if (phase.law.mechanism == Mechanism::kEvaporation && phase.law.solvent) {
      phase.duration = phase.duration.scaled(factor_for(phase.law.solvent->solvent));
    }
  }
  return thinned;
}

}  // namespace coatwright
