#include "air/wood_moisture.h"

namespace coatwright {
namespace {

// a + b t + c t2 with t in C: how each parameter runs with temperature.
struct Quadratic {
  double a;
  double b;
  double c;

  [[nodiscard]] constexpr double at(double t) const { return a + t * (b + t * c); }
};

// Parameters of the sorption model, Celsius form. Source: [wood_handbook2010] ch. 4 eq. 4-5.
constexpr Quadratic kW = {349.0, 1.29, 0.0135};           // molar mass of a sorption site, g/mol
constexpr Quadratic kK = {0.805, 0.000736, -0.00000273};  // activity of dissolved water, 1
constexpr Quadratic kK1 = {6.27, -0.00938, -0.000303};    // first hydrate equilibrium, 1
constexpr Quadratic kK2 = {1.91, 0.0407, -0.000293};      // second hydrate equilibrium, 1
constexpr double kMolarMassOfWater = 18.0;                // g/mol: the 1800 of eq. 4-5 over 100 %

}  // namespace

double equilibrium_moisture_content(Temperature temperature, RelativeHumidity humidity) {
  const double t = temperature.celsius();
  const double kh = kK.at(t) * humidity.fraction();
  const double k1 = kK1.at(t);
  const double k2 = kK2.at(t);
  const double dissolved = kh / (1.0 - kh);
  const double hydrated = (k1 * kh + 2.0 * k1 * k2 * kh * kh) / (1.0 + k1 * kh + k1 * k2 * kh * kh);
  return kMolarMassOfWater / kW.at(t) * (dissolved + hydrated);  // [wood_handbook2010] eq. 4-5
}

}  // namespace coatwright
