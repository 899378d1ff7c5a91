#pragma once

#include <vector>

#include "base/vapour_units.h"
#include "recipe/product.h"
#include "safety/ventilation.h"

namespace coatwright {

/// One substance of what a coat sets free.
struct VapourPart {
  const Substance* substance = nullptr;
  Volume liquid = Volume::from_litres(0);
  AirVolume vapour = AirVolume::from_cubic_metres(0);
};

/// What evaporates of a product that is used up, from the wood, the gun's mist and the rags alike.
struct CoatVapour {
  const Product* product = nullptr;
  Volume used = Volume::from_litres(0);
  std::vector<VapourPart> parts;  ///< Those whose vapour is known; water is not among them.
  double voc_grams = 0;           ///< Volatile organic compounds.

  [[nodiscard]] AirVolume vapour() const;
  /// The air that keeps all of it at a quarter of its lower explosive limit: what each part needs,
  /// added up. Source: [osha_1910_94] (c)(6)(ii); that parts add up is [le_chatelier1891].
  [[nodiscard]] AirVolume air_against_fire() const;
  /// The flow that keeps the mean of a time in which all of it is set free within the limits of
  /// exposure, taken together as if the parts acted alike. @param span above 0.
  /// Source: [acgih_ventilation] additive mixtures, from memory.
  [[nodiscard]] AirFlow flow_for_health(std::chrono::seconds span, MixingFactor mixing) const;
  /// The air that would hold all of it at the limits of exposure.
  [[nodiscard]] AirVolume air_for_health() const;
};

/// @param used as bought and used up, what misses the piece included. @param temperature of the
/// air. @return without parts where the product has no [vapour].
[[nodiscard]] CoatVapour vapour_of(const Product& product, Volume used, Temperature temperature);

}  // namespace coatwright
