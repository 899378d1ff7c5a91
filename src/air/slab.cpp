#include "air/slab.h"

#include <cmath>
#include <numbers>

namespace coatwright {

Slab wooden_slab(Length thickness, double density_kg_per_m3) {
  constexpr double kMoisturePercent = 12.0;
  constexpr double kUnitGravity = 1120.0;  // kg/m3, of gravity 1 with its 12 % moisture
  constexpr double kA = 0.01864;           // W/(m K)
  constexpr double kB = 0.1941;            // W/(m K)
  constexpr double kC = 0.004064;          // W/(m K) per % of moisture
  const double gravity = density_kg_per_m3 / kUnitGravity;
  Slab slab{.thickness = thickness, .density_kg_per_m3 = density_kg_per_m3};
  slab.conductivity_w_per_m_k =
      gravity * (kB + kC * kMoisturePercent) + kA;  // [wood_handbook2010] eq. 4-15
  return slab;
}

double first_eigenvalue(double biot_number) {
  constexpr double kTolerance = 1e-12;
  double low = 0.0;
  double high = std::numbers::pi / 2.0;
  while (high - low > kTolerance) {
    const double z = (low + high) / 2.0;
    (z * std::tan(z) < biot_number ? low : high) = z;
  }
  return (low + high) / 2.0;
}

std::chrono::seconds Slab::slowest_lag() const {
  const double half = thickness.metres() / 2.0;
  const double diffusivity =
      conductivity_w_per_m_k / (density_kg_per_m3 * specific_heat_j_per_kg_k);
  const double z = first_eigenvalue(biot_number());
  return std::chrono::seconds(std::llround(half * half / (diffusivity * z * z)));
}

}  // namespace coatwright
