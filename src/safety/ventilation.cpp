#include "safety/ventilation.h"

#include <cassert>
#include <cmath>

namespace coatwright {
namespace {

constexpr double kGasConstant = 8.314462618;  // J/(mol K), [codata2018], exact
constexpr double kAtmosphere = 101325.0;      // Pa

using Span = std::chrono::duration<double>;

}  // namespace

MixingFactor MixingFactor::from_number(double value) {
  assert(value >= kLeast && value <= kMost);
  return MixingFactor(value);
}

AirVolume vapour_volume(Volume liquid,
                        Density density,
                        MolarMass molar_mass,
                        Temperature temperature) {
  const double grams = liquid.litres() * density.g_per_l();
  const double moles = grams / molar_mass.g_per_mol();
  return AirVolume::from_cubic_metres(moles * kGasConstant * temperature.kelvin() / kAtmosphere);
}

AirVolume dilution_air(AirVolume vapour, VapourFraction lower_explosive_limit, double share) {
  const double limit = lower_explosive_limit.fraction();
  return vapour * ((1.0 - limit) / (share * limit));  // (c)(6)(ii)
}

AirFlow dilution_flow(AirFlow set_free, VapourFraction limit, MixingFactor mixing) {
  return set_free * (mixing.number() / limit.fraction());
}

MixedRoom MixedRoom::with_fan(AirVolume volume, AirFlow fan, MixingFactor mixing) {
  return {volume, fan * (1.0 / mixing.number())};
}

double MixedRoom::air_changes_per_hour() const {
  return flow.cubic_metres_per_hour() / volume.cubic_metres();
}

VapourFraction fraction_after(const MixedRoom& room,
                              VapourFraction before,
                              AirFlow set_free,
                              Span span) {
  const double volume = room.volume.cubic_metres();
  const double flow = room.flow.cubic_metres_per_second();
  const double source = set_free.cubic_metres_per_second();
  if (flow <= 0.0) {
    return VapourFraction::from_fraction(before.fraction() + source * span.count() / volume);
  }
  const double steady = source / flow;
  const double left = std::exp(-flow * span.count() / volume);
  return VapourFraction::from_fraction(steady + (before.fraction() - steady) * left);
}

std::optional<Span> time_between(const MixedRoom& room,
                                 VapourFraction before,
                                 VapourFraction after,
                                 AirFlow set_free) {
  const double volume = room.volume.cubic_metres();
  const double flow = room.flow.cubic_metres_per_second();
  const double source = set_free.cubic_metres_per_second();
  if (before == after) {
    return Span(0.0);
  }
  if (flow <= 0.0) {
    const double span = (after.fraction() - before.fraction()) * volume / source;
    return source > 0.0 && span >= 0.0 ? std::optional(Span(span)) : std::nullopt;
  }
  const double ratio = (source - flow * after.fraction()) / (source - flow * before.fraction());
  if (!(ratio > 0.0) || ratio > 1.0) {
    return std::nullopt;  // on the far side of the steady state, or away from it
  }
  return Span(-volume / flow * std::log(ratio));
}

std::optional<Span> purge_time(const MixedRoom& room, double share) {
  return time_between(room,
                      VapourFraction::from_fraction(1.0),
                      VapourFraction::from_fraction(1.0 - share),
                      AirFlow::from_cubic_metres_per_second(0.0));
}

}  // namespace coatwright
