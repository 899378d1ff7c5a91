#include "cli/product_in_air.h"

#include <algorithm>

namespace coatwright {
namespace {

/// A closing runs on by the clock on the wall even where the film stands still.
double closing_rate(const RateLaw& law, const TemperatureAndHumidity& air) {
  return std::max(1.0, law.rate(air.temperature, air.humidity));
}

}  // namespace

std::optional<Temperature> gate_of(const StageTiming& timing, const Limits& limits) {
  std::optional<Temperature> gate;
  if (limits.temperature_min) {
    gate = limits.temperature_min->value;
  }
  for (const Phase& phase : timing.phases) {
    gate = std::max(gate, phase.law.stops_below());  // no value is less than any
  }
  return gate;
}

std::optional<DurationRange> opening_in_air(const StageTiming& timing,
                                            const Limits& limits,
                                            const TemperatureAndHumidity& air) {
  const auto gate = gate_of(timing, limits);
  if (gate && air.temperature < *gate) {
    return std::nullopt;
  }
  Hours low = Hours::from_hours(0);
  Hours high = Hours::from_hours(0);
  for (const Phase& phase : timing.phases) {
    const double rate = phase.law.rate(air.temperature, air.humidity);
    if (rate <= 0.0) {
      return std::nullopt;
    }
    low = low + phase.duration.low() * (1.0 / rate);
    high = high + phase.duration.high() * (1.0 / rate);
  }
  return DurationRange(low, high);
}

DurationRange closing_in_air(const StageTiming& timing, const TemperatureAndHumidity& air) {
  Hours low = Hours::from_hours(0);
  Hours high = Hours::from_hours(0);
  for (const Phase& phase : timing.phases) {
    const double share = 1.0 / closing_rate(phase.law, air);
    low = low + phase.duration.low() * share;
    high = high + phase.duration.high() * share;
  }
  return {low, high};
}

Hours closing_in_air(const WipeOff& wipe_off, const TemperatureAndHumidity& air) {
  return wipe_off.closes * (1.0 / closing_rate(wipe_off.closing_law, air));
}

}  // namespace coatwright
