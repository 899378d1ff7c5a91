#include "air/surface.h"

#include <cmath>

namespace coatwright {
namespace {

constexpr int kLagsRemembered = 6;  // exp(-6) = 0.2 %

}  // namespace

Temperature surface_temperature(const AirRecord& air, Time at, std::chrono::seconds lag) {
  const double tau = static_cast<double>(lag.count());
  const auto knots = air.knots(at - kLagsRemembered * lag, at);
  double surface = knots.front().temperature.kelvin();
  for (std::size_t i = 1; i < knots.size(); ++i) {
    // dTs/dt = (Ta - Ts)/tau has this solution where the air runs linearly.
    const double span = static_cast<double>((knots[i].at - knots[i - 1].at).count());
    if (span <= 0.0) {
      continue;
    }
    const double begin = knots[i - 1].temperature.kelvin();
    const double slope = (knots[i].temperature.kelvin() - begin) / span;
    const double behind = surface - begin + slope * tau;
    surface = begin + slope * (span - tau) + behind * std::exp(-span / tau);
  }
  return Temperature::from_kelvin(surface);
}

}  // namespace coatwright
