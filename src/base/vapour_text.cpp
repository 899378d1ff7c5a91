#include "base/vapour_text.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

#include <fmt/format.h>

#include "base/quantity_text.h"

namespace coatwright {
namespace {

struct FlowUnit {
  std::string_view name;
  AirFlow (*of)(double);
};

constexpr FlowUnit kUnits[] = {{"m3/h", &AirFlow::from_cubic_metres_per_hour},
                               {"m³/h", &AirFlow::from_cubic_metres_per_hour},
                               {"m3/s", &AirFlow::from_cubic_metres_per_second},
                               {"m³/s", &AirFlow::from_cubic_metres_per_second},
                               {"cfm", &AirFlow::from_cfm},
                               {"ft3/min", &AirFlow::from_cfm}};

std::optional<AirFlow> flow_in(std::string_view text) {
  for (const FlowUnit& unit : kUnits) {
    if (!text.ends_with(unit.name)) {
      continue;
    }
    if (const auto number = parse_measure(text.substr(0, text.size() - unit.name.size()))) {
      return unit.of(*number);
    }
  }
  return std::nullopt;
}

/// Three digits, two of what is below 1; whole from 100 on. Rounded first, so that 9.996 is 10.0.
std::string few_digits(double value) {
  if (value <= 0.0) {
    return "0";
  }
  const int digits = value < 1.0 ? 2 : 3;
  const double rounded = std::stod(fmt::format("{:.{}e}", value, digits - 1));
  const int before = static_cast<int>(std::floor(std::log10(rounded))) + 1;
  return fmt::format("{:.{}f}", value, std::max(0, digits - before));
}

}  // namespace

Result<AirFlow> parse_air_flow(std::string_view text) {
  constexpr double kLeast = 10.0;      // m3/h
  constexpr double kMost = 200'000.0;  // m3/h
  const auto flow = flow_in(text);
  if (!flow) {
    return fail(ErrorCode::kUsage,
                fmt::format("'{}' is not a flow of air: write a number and its unit, as in 850m3/h "
                            "or 500cfm",
                            text));
  }
  if (flow->cubic_metres_per_hour() < kLeast || flow->cubic_metres_per_hour() > kMost) {
    return fail(ErrorCode::kOutOfRange,
                fmt::format("the flow of air '{}' is out of range: 10m3/h to 200000m3/h (6cfm to "
                            "117000cfm) is allowed",
                            text));
  }
  return *flow;
}

std::string show_air_flow(AirFlow value, UnitSystem units) {
  return units == UnitSystem::kUs ? few_digits(value.cfm()) + " cfm"
                                  : few_digits(value.cubic_metres_per_hour()) + " m3/h";
}

std::string show_air_volume(AirVolume value, UnitSystem units) {
  return units == UnitSystem::kUs ? few_digits(value.cubic_feet()) + " ft3"
                                  : few_digits(value.cubic_metres()) + " m3";
}

}  // namespace coatwright
