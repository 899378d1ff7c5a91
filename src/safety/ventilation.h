#pragma once

#include <chrono>
#include <optional>

#include "base/units.h"
#include "base/vapour_units.h"

/// How much air thins the vapour of a finish, and how long a room takes to fill with it and to be
/// cleared of it. All of it holds for air that is well mixed: near the gun and low over the floor
/// there is more.
namespace coatwright {

/// The rule's share of the lower explosive limit that must not be passed.
/// Source: [osha_1910_94] (c)(6)(ii), [ifc2018] 2404.7.3.
inline constexpr double kShareOfExplosiveLimit = 0.25;

/// How much worse than perfect a room's air mixes, K: the flow that counts is the fan's over K.
/// Source: [acgih_ventilation], 1 to 10, from memory; the assumed one is judgement: an opening on
/// one side and a fan on the other.
class MixingFactor {
 public:
  static constexpr double kLeast = 1.0;
  static constexpr double kMost = 10.0;
  static constexpr double kAssumed = 5.0;

  /// @param value kLeast .. kMost; asserted.
  static MixingFactor from_number(double value);
  static constexpr MixingFactor perfect() { return MixingFactor(1.0); }
  static constexpr MixingFactor assumed() { return MixingFactor(kAssumed); }
  [[nodiscard]] constexpr double number() const { return value_; }
  constexpr auto operator<=>(const MixingFactor&) const = default;

 private:
  explicit constexpr MixingFactor(double value) : value_(value) {}
  double value_;
};

/// @return the vapour that a liquid becomes when all of it evaporates, at 1 atm:
///     V = volume rho / M * R T / p.
/// @param temperature of the vapour. Source: the ideal gas, [codata2018] R.
/// Accuracy: within 5 % of [osha_1910_94] table G-11 for 23 solvents, the mean of residuals 1.5 %.
[[nodiscard]] AirVolume vapour_volume(Volume liquid,
                                      Density density,
                                      MolarMass molar_mass,
                                      Temperature temperature);

/// @return the air that keeps a vapour at a share of its lower explosive limit:
///     air = vapour (1 - LEL) / (share LEL).
/// @param lower_explosive_limit above 0. @param share above 0, up to 1.
/// Source: [osha_1910_94] (c)(6)(ii), where the share is 25 %: 4 (100 - LEL) V / LEL.
[[nodiscard]] AirVolume dilution_air(AirVolume vapour,
                                     VapourFraction lower_explosive_limit,
                                     double share = kShareOfExplosiveLimit);

/// @return the flow of air that keeps what is set free at or below a limit for health: Q = G K / C.
/// @param limit above 0. Flows for several vapours that act alike add up.
/// Source: [acgih_ventilation] dilution ventilation for health, from memory.
[[nodiscard]] AirFlow dilution_flow(AirFlow set_free, VapourFraction limit, MixingFactor mixing);

/// A room and the air that really thins what is in it.
struct MixedRoom {
  AirVolume volume;
  AirFlow flow;  ///< That counts: the fan's over K; may be 0.

  [[nodiscard]] static MixedRoom with_fan(AirVolume volume, AirFlow fan, MixingFactor mixing);
  /// Of the air that counts, per hour.
  [[nodiscard]] double air_changes_per_hour() const;
};

/// @return what the room's air holds after a while in which vapour was set free at a steady rate:
///     C = G/Q' + (C0 - G/Q') exp(-Q' t / V),  and C0 + G t / V without a flow.
/// Source: [acgih_ventilation] build-up and decay, from memory; the mass balance of a mixed room.
[[nodiscard]] VapourFraction fraction_after(const MixedRoom& room,
                                            VapourFraction before,
                                            AirFlow set_free,
                                            std::chrono::duration<double> span);

/// @return how long the room takes from one fraction to another while vapour is set free at a
/// steady rate (0: it is being cleared); nothing where it never comes to it.
/// Source: as fraction_after().
[[nodiscard]] std::optional<std::chrono::duration<double>> time_between(const MixedRoom& room,
                                                                        VapourFraction before,
                                                                        VapourFraction after,
                                                                        AirFlow set_free);

/// @return how long until a share of what was in the air is gone, with nothing set free any more:
///     t = ln(1 / (1 - share)) V / Q'.
/// @param share 0 .. below 1. Source: [cdc_purge_table].
[[nodiscard]] std::optional<std::chrono::duration<double>> purge_time(const MixedRoom& room,
                                                                      double share);

}  // namespace coatwright
