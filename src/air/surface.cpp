#include "air/surface.h"

#include <cmath>

namespace coatwright {
namespace {

constexpr int kLagsRemembered = 6;  // exp(-6) = 0.2 %

/// A surface that was at `surface` when `air` began, at the end of the air.
Temperature follow(const std::vector<AirKnot>& air, Temperature surface, std::chrono::seconds lag) {
  const double tau = static_cast<double>(lag.count());
  double kelvin = surface.kelvin();
  for (std::size_t i = 1; i < air.size(); ++i) {
    // dTs/dt = (Ta - Ts)/tau has this solution where the air runs linearly.
    const double span = static_cast<double>((air[i].at - air[i - 1].at).count());
    if (span <= 0.0) {
      continue;
    }
    const double begin = air[i - 1].temperature.kelvin();
    const double slope = (air[i].temperature.kelvin() - begin) / span;
    const double behind = kelvin - begin + slope * tau;
    kelvin = begin + slope * (span - tau) + behind * std::exp(-span / tau);
  }
  return Temperature::from_kelvin(kelvin);
}

}  // namespace

Temperature surface_temperature(const AirRecord& air, Time at, std::chrono::seconds lag) {
  const auto knots = air.knots(at - kLagsRemembered * lag, at);
  return follow(knots, knots.front().temperature, lag);
}

Temperature surface_temperature(const AirRecord& air, const CarriedPiece& piece, Time at) {
  return follow(air.knots(piece.since, at), piece.temperature, piece.lag);
}

std::optional<Time> first_moment_above_dew_point(const AirRecord& air,
                                                 const CarriedPiece& piece,
                                                 TemperatureDifference spread,
                                                 Time until) {
  constexpr std::chrono::minutes kGrain{1};
  std::optional<Time> first;
  Temperature surface = piece.temperature;
  for (Time at = piece.since; at <= until; at += kGrain) {
    if (surface - air.at(at).dew_point < spread) {
      first.reset();
    } else if (!first) {
      first = at;
    }
    surface = follow(air.knots(at, at + kGrain), surface, piece.lag);
  }
  return first;
}

}  // namespace coatwright
