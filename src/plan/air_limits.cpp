#include "plan/air_limits.h"

#include <algorithm>

#include <fmt/format.h>

#include "air/surface.h"

namespace coatwright {
namespace {

constexpr std::chrono::minutes kGrain{5};

// Air that stands on a limit keeps it, whatever interpolation does to its last digits.
constexpr TemperatureDifference kTemperatureSlack = TemperatureDifference::from_kelvin(0.01);
constexpr double kHumiditySlack = 0.0005;

bool below(Temperature value, Temperature limit) {
  return value + kTemperatureSlack < limit;
}

std::string both(Temperature value) {
  return in_both_units(value);
}

std::string both(TemperatureDifference value) {
  return fmt::format("{:.1f} C ({:.0f} F)", value.kelvin(), value.fahrenheit_degrees());
}

}  // namespace

std::string in_both_units(Temperature value) {
  return fmt::format("{:.1f} C ({:.0f} F)", value.celsius(), value.fahrenheit());
}

std::optional<LimitBreach> glue_breach(const AirRecord& air, const Glue& glue, Time from, Time to) {
  for (Time at = from; at < to + kGrain; at += kGrain) {
    const Temperature there = air.at(at).temperature;
    const bool is_cold = there < glue.at_least;
    if (is_cold || there > glue.at_most) {
      return LimitBreach{at,
                         is_cold ? "glue-temperature-min" : "glue-temperature-max",
                         fmt::format("the air is at {}, {} the {} that {} needs from when it is "
                                     "spread until its clamps come off",
                                     both(there),
                                     is_cold ? "below" : "above",
                                     both(is_cold ? glue.at_least : glue.at_most),
                                     glue.title),
                         glue.temperature_source};
    }
  }
  return std::nullopt;
}

std::optional<LimitBreach> AirLimits::breach_at(Time at) const {
  const Limits& limits = product_.limits;
  const AirState air = air_.at(at);
  if (limits.temperature_min && below(air.temperature, limits.temperature_min->value)) {
    return LimitBreach{at,
                       "temperature-min",
                       fmt::format("the air is at {}, below the {} that {} needs",
                                   both(air.temperature),
                                   both(limits.temperature_min->value),
                                   product_.title),
                       limits.temperature_min->source};
  }
  if (limits.film_formation_min && below(air.temperature, limits.film_formation_min->value)) {
    return LimitBreach{at,
                       "film-formation",
                       fmt::format("the air is at {}; below {} the film of {} is spoiled, not slow",
                                   both(air.temperature),
                                   both(limits.film_formation_min->value),
                                   product_.title),
                       limits.film_formation_min->source};
  }
  if (limits.humidity_max &&
      air.humidity.fraction() > limits.humidity_max->value.fraction() + kHumiditySlack) {
    return LimitBreach{at,
                       "humidity-max",
                       fmt::format("the air is at {:.0f} % humidity, above the {:.0f} % up to "
                                   "which {} may go on",
                                   air.humidity.percent(),
                                   limits.humidity_max->value.percent(),
                                   product_.title),
                       limits.humidity_max->source};
  }
  if (limits.dew_point_spread_min) {
    const TemperatureDifference spread = surface_temperature(air_, at) - air.dew_point;
    if (spread < limits.dew_point_spread_min->value) {
      return LimitBreach{at,
                         "dew-point-spread",
                         fmt::format("the surface is only {} above the dew point; {} needs {}",
                                     both(spread),
                                     product_.title,
                                     both(limits.dew_point_spread_min->value)),
                         limits.dew_point_spread_min->source};
    }
  }
  return std::nullopt;
}

std::optional<LimitBreach> AirLimits::first_breach(Time from, Time to) const {
  for (Time at = from; at < to; at += kGrain) {
    if (auto breach = breach_at(at)) {
      return breach;
    }
  }
  return breach_at(to);
}

std::optional<Time> AirLimits::next_kept(Time from, Time latest) const {
  for (Time at = from; at <= latest; at += kGrain) {
    if (!breach_at(at)) {
      return at;
    }
  }
  return std::nullopt;
}

std::vector<LimitBreach> AirLimits::cautions(Time from, Time to) const {
  const Limits& limits = product_.limits;
  std::vector<LimitBreach> found;
  const auto add_once = [&](Time at, const char* code, std::string text, std::string source) {
    const bool known = std::any_of(
        found.begin(), found.end(), [&](const LimitBreach& one) { return one.code == code; });
    if (!known) {
      found.push_back({at, code, std::move(text), std::move(source)});
    }
  };
  for (Time at = from; at <= to; at += kGrain) {
    const AirState air = air_.at(at);
    if (limits.temperature_max && air.temperature > limits.temperature_max->value) {
      add_once(at,
               "temperature-max",
               fmt::format("{} is above the {} up to which it goes on well: it dries too fast "
                           "to level; thin or wait for a cooler hour.",
                           both(air.temperature),
                           both(limits.temperature_max->value)),
               limits.temperature_max->source);
    }
    if (limits.humidity_min && air.humidity < limits.humidity_min->value) {
      add_once(at,
               "humidity-min",
               fmt::format("{:.0f} % humidity is below the {:.0f} % it likes: laps and fine "
                           "cracks are likelier.",
                           air.humidity.percent(),
                           limits.humidity_min->value.percent()),
               limits.humidity_min->source);
    }
    // Of two rules in use, "not above 65 % humidity" and a distance to the dew point, the second:
    // it holds at any temperature, and the adviser who gives both calls it the more accurate.
    if (limits.blush_spread && air.spread() < limits.blush_spread->value) {
      add_once(at,
               "blush",
               fmt::format("The air is {} above its dew point; under {} it may blush (turn "
                           "white) without a retarder.",
                           both(air.spread()),
                           both(limits.blush_spread->value)),
               limits.blush_spread->source);
    }
  }
  if (auto warming = outgassing(from)) {
    found.push_back(std::move(*warming));
  }
  return found;
}

/// Air in the pores of wood that warms expands and makes bubbles in a film that is still soft.
/// Source: common practice (coat on a falling temperature); the kelvin an hour is judgement.
std::optional<LimitBreach> AirLimits::outgassing(Time from) const {
  constexpr std::chrono::hours kWatched{1};
  constexpr TemperatureDifference kWarms = TemperatureDifference::from_kelvin(1.0);
  const bool is_film =
      product_.kind == ProductKind::kSealer || product_.kind == ProductKind::kClearFilm;
  const TemperatureDifference rise =
      surface_temperature(air_, from + kWatched) - surface_temperature(air_, from);
  if (!is_film || rise < kWarms) {
    return std::nullopt;
  }
  return LimitBreach{
      from,
      "outgassing",
      fmt::format("The wood warms by {} in the hour after: air in its pores may make "
                  "bubbles. Coat when the temperature falls, or let the piece come "
                  "to the room's warmth first.",
                  both(rise)),
      "common-practice"};
}

}  // namespace coatwright
