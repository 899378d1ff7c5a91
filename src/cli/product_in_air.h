#pragma once

#include <optional>

#include "base/quantity_text.h"
#include "drying/range.h"
#include "recipe/product.h"

/// A product's times in air that stays the same; the plan integrates over the shop's real air
/// instead.
namespace coatwright {

/// The temperature below which a stage of the product is credited nothing: the higher of the
/// product's minimum and of what its laws stop at; nothing when there is none.
[[nodiscard]] std::optional<Temperature> gate_of(const StageTiming& timing, const Limits& limits);

/// When a stage opens in this air. @return nothing when it never does.
[[nodiscard]] std::optional<DurationRange> opening_in_air(const StageTiming& timing,
                                                          const Limits& limits,
                                                          const TemperatureAndHumidity& air);

/// When a window closes in this air: never later than at the label's own hours.
[[nodiscard]] DurationRange closing_in_air(const StageTiming& timing,
                                           const TemperatureAndHumidity& air);
[[nodiscard]] Hours closing_in_air(const WipeOff& wipe_off, const TemperatureAndHumidity& air);

}  // namespace coatwright
