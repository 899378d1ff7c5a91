#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/units.h"

namespace coatwright {

/// The reference atmosphere at which a stage's duration holds. Source: ISO 3270, ASTM D3924.
inline constexpr Temperature kReferenceTemperature = Temperature::from_celsius(23.0);
inline constexpr RelativeHumidity kReferenceHumidity = RelativeHumidity::from_percent(50.0);

/// What sets the pace of a drying stage.
enum class Mechanism {
  kElapsed,       ///< The clock on the wall: soaking times and label hours.
  kEvaporation,   ///< A solvent leaves: its vapour pressure.
  kWaterLoss,     ///< Water leaves a waterborne film: the vapour-pressure deficit.
  kCoalescence,   ///< A waterborne film closes after the water has left.
  kOxidation,     ///< A drying oil or alkyd takes up oxygen.
  kTwoPart,       ///< Two components react.
  kAcidCure,      ///< An acid catalyst cures an amino resin.
  kMoistureCure,  ///< Isocyanate reacts with the air's moisture.
};

/// "evaporation", "water loss", "oxidation" ...
[[nodiscard]] std::string_view name_of(Mechanism mechanism);
[[nodiscard]] std::optional<Mechanism> mechanism_named(std::string_view name);

/// A solvent that controls evaporation: log10(p / Pa) = a - b / (T / K + c).
struct Antoine {
  std::string_view solvent;  ///< "n-butyl acetate"
  double a;
  double b;                 ///< K
  double c;                 ///< K
  std::string_view source;  ///< Key into docs/references.bib.
};

/// @return the set for a solvent by its name, as listed in docs/formulas.md.
[[nodiscard]] std::optional<Antoine> antoine_of(std::string_view solvent);
[[nodiscard]] Pressure vapour_pressure_of(const Antoine& solvent, Temperature temperature);

/// The rate of a mechanism relative to the reference atmosphere, where it is 1.
struct RateLaw {
  Mechanism mechanism = Mechanism::kElapsed;
  std::optional<Antoine> solvent;    ///< For kEvaporation.
  double activation_kj_per_mol = 0;  ///< For the reactions.

  /// @return the rate, at least 0.
  [[nodiscard]] double rate(Temperature temperature, RelativeHumidity humidity) const;
  /// Below this temperature the mechanism has practically stopped; rate() leaves that to the clock,
  /// which cuts its cells there.
  [[nodiscard]] std::optional<Temperature> stops_below() const;
  /// "evaporation of n-butyl acetate", "oxidation, 50 kJ/mol".
  [[nodiscard]] std::string description() const;
  bool operator==(const RateLaw& other) const;
};

/// The law of a mechanism with its usual parameters.
/// @param solvent needed for kEvaporation only.
[[nodiscard]] RateLaw rate_law_of(Mechanism mechanism,
                                  std::optional<Antoine> solvent = std::nullopt);

}  // namespace coatwright
