#pragma once

#include <chrono>

#include "base/units.h"

namespace coatwright {

/// A board or slab in still air on both faces, as far as its temperature goes. A piece that lies on
/// a bench has only one face in the air: give twice its thickness.
struct Slab {
  Length thickness;
  /// Source: judgement, a medium wood; by species see recipes/species.toml.
  double density_kg_per_m3 = 600.0;
  /// Source: [wood_handbook2010] ch. 4 eq. 4-16 (from memory): 1.62e3 J/(kg K) at 20 C and 12 %
  /// moisture.
  double specific_heat_j_per_kg_k = 1600.0;
  /// Across the grain. Source: [wood_handbook2010] ch. 4 eq. 4-15 (from memory): 0.15 W/(m K) for a
  /// gravity of 0.54 and 12 % moisture.
  double conductivity_w_per_m_k = 0.15;
  /// Convection and radiation. Source: judgement, near [iso_6946]'s 7.7 W/(m2 K) for indoor walls.
  double transfer_w_per_m2_k = 8.0;

  /// Lumped heat capacity of half the thickness over the heat transfer at its face: rho c (d/2)/h.
  /// Source: [incropera2007] ch. 5, lumped capacitance. Valid: where is_lumped().
  [[nodiscard]] constexpr std::chrono::seconds lag() const {
    const double tau = density_kg_per_m3 * specific_heat_j_per_kg_k * thickness.metres() / 2.0 /
                       transfer_w_per_m2_k;
    return std::chrono::seconds(static_cast<std::chrono::seconds::rep>(tau + 0.5));
  }

  /// Resistance inside over that at the face: h (d/2)/k. Source: [incropera2007] ch. 5.
  [[nodiscard]] constexpr double biot_number() const {
    return transfer_w_per_m2_k * thickness.metres() / 2.0 / conductivity_w_per_m_k;
  }

  /// Whether the slab may be taken to be of one temperature: a Biot number below 0.1, which wood
  /// keeps up to 3.7 mm only. Source: [incropera2007] ch. 5.
  [[nodiscard]] constexpr bool is_lumped() const { return biot_number() < kMostLumpedBiotNumber; }

  /// The lag of the slowest mode of heat conduction, d^2/(4 a z^2) with z tan z = Bi: lag() for a
  /// Biot number near 0, about 1 + Bi/3 times it for boards. After a step of the air no point of
  /// the face is further behind than exp(-t/slowest_lag), whatever the Biot number: the face's
  /// share of every mode is positive, and the others die sooner. Source: [incropera2007] ch. 5,
  /// plane wall with convection; the bound is derived.
  [[nodiscard]] std::chrono::seconds slowest_lag() const;

  static constexpr double kMostLumpedBiotNumber = 0.1;
};

/// A slab of wood of another density. Its conductivity is G (0.1941 + 0.004064 M) + 0.01864 with
/// M = 12 % and G = density/1120. @param density_kg_per_m3 at 12 % moisture, above 336.
/// Source: [wood_handbook2010] ch. 4 eq. 4-15 (from memory). Valid: G above 0.3.
[[nodiscard]] Slab wooden_slab(Length thickness, double density_kg_per_m3);

/// The smallest positive z with z tan z = Bi. @param biot_number above 0. @return 0 .. pi/2.
/// Source: [incropera2007] ch. 5 eq. 5.39c (from memory). Accuracy: bisected to 1e-12.
[[nodiscard]] double first_eigenvalue(double biot_number);

/// What stands in for a board that nothing more is known of: 20 mm of a medium wood.
inline constexpr Slab kBoard{.thickness = Length::from_millimetres(20.0)};

}  // namespace coatwright
