#include "safety/coat_vapour.h"

namespace coatwright {

AirVolume CoatVapour::vapour() const {
  AirVolume sum = AirVolume::from_cubic_metres(0);
  for (const VapourPart& part : parts) {
    sum = sum + part.vapour;
  }
  return sum;
}

AirVolume CoatVapour::air_against_fire() const {
  AirVolume sum = AirVolume::from_cubic_metres(0);
  for (const VapourPart& part : parts) {
    if (const auto* limit = part.substance->lowest_explosive_limit()) {
      sum = sum + dilution_air(part.vapour, limit->value);
    }
  }
  return sum;
}

AirVolume CoatVapour::air_for_health() const {
  AirVolume sum = AirVolume::from_cubic_metres(0);
  for (const VapourPart& part : parts) {
    if (const auto* limit = part.substance->strictest_limit()) {
      sum = sum + part.vapour * (1.0 / limit->at_most.value.fraction());
    }
  }
  return sum;
}

AirFlow CoatVapour::flow_for_health(std::chrono::seconds span, MixingFactor mixing) const {
  const double seconds = static_cast<double>(span.count());
  return AirFlow::from_cubic_metres_per_second(air_for_health().cubic_metres() / seconds) *
         mixing.number();
}

CoatVapour vapour_of(const Product& product, Volume used, Temperature temperature) {
  CoatVapour coat{&product, used, {}, 0.0};
  if (!product.vapour) {
    return coat;
  }
  coat.voc_grams = used.litres() * product.vapour->voc_g_per_l();
  for (const SolventShare& solvent : product.vapour->solvents) {
    if (solvent.substance == nullptr || !solvent.substance->density) {
      continue;  // read without a book, or a gas: given off, but no part of the liquid's volume
    }
    const Volume liquid =
        Volume::from_litres(used.litres() * product.vapour->volatile_share * solvent.share);
    coat.parts.push_back({solvent.substance,
                          liquid,
                          vapour_volume(liquid,
                                        solvent.substance->density->value,
                                        solvent.substance->molar_mass,
                                        temperature)});
  }
  return coat;
}

}  // namespace coatwright
