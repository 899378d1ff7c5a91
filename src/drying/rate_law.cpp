#include "drying/rate_law.h"

#include <array>
#include <cmath>
#include <numbers>
#include <utility>

#include <fmt/format.h>

#include "air/moist_air.h"

namespace coatwright {
namespace {

constexpr double kGasConstant = 8.314462618e-3;  // kJ/(mol K), CODATA 2018

// Antoine sets, log10(p / Pa), each covering 0 .. 50 C or close to it. Those marked perry_dippr are
// three-point fits through the handbook's equation at 0, 25 and 50 C, within 0.13 % of it; the
// others are as tabulated. Two sets were published as ln(p) and are divided by ln(10).
constexpr double kLn10 = 2.302585092994046;
constexpr std::array<Antoine, 14> kSolvents = {{
    {"acetone", 9.2184, 1197.01, -45.09, "poling2001"},
    {"methyl ethyl ketone", 9.1386, 1232.63, -54.46, "poling2001"},
    {"ethyl acetate", 9.13361, 1195.13, -60.68, "poling2001"},
    {"ethanol", 10.33675, 1648.22, -42.232, "poling2001"},
    {"isopropanol", 10.24268, 1580.92, -53.54, "poling2001"},
    {"n-butanol", 10.3391, 1745.069, -61.809, "perry_dippr"},
    {"toluene", 9.05043, 1327.62, -55.525, "poling2001"},
    {"m-xylene", 9.3706, 1593.652, -46.045, "perry_dippr"},
    {"n-butyl acetate", 9.33785, 1458.032, -61.605, "perry_dippr"},
    {"2-butoxyethanol", 22.035578 / kLn10, 3895.2556 / kLn10, -72.931, "landolt_iv20"},
    {"alpha-pinene", 20.566828 / kLn10, 3266.765 / kLn10, -68.039, "landolt_iv20"},
    {"n-octane", 9.05075, 1356.36, -63.515, "poling2001"},
    {"n-nonane", 9.40006, 1609.537, -55.617, "perry_dippr"},
    {"n-decane", 9.5906, 1783.199, -54.972, "perry_dippr"},
}};

constexpr std::array<std::pair<Mechanism, std::string_view>, 8> kNames = {{
    {Mechanism::kElapsed, "elapsed"},
    {Mechanism::kEvaporation, "evaporation"},
    {Mechanism::kWaterLoss, "water-loss"},
    {Mechanism::kCoalescence, "coalescence"},
    {Mechanism::kOxidation, "oxidation"},
    {Mechanism::kTwoPart, "two-part"},
    {Mechanism::kAcidCure, "acid-cure"},
    {Mechanism::kMoistureCure, "moisture-cure"},
}};

// Activation energies in kJ/mol, with their grades; docs/formulas.md lists the readings.
constexpr double kOxidationEnergy = 50.0;    // Q10 = 2, common practice
constexpr double kCoalescenceEnergy = 50.0;  // judgement
constexpr double kTwoPartEnergy = 55.0;      // middle of 53 .. 60, derived from urethane and epoxy
constexpr double kAcidCureEnergy = 80.0;     // middle of 70 .. 95, from memory, low confidence
constexpr double kMoistureEnergy = 50.0;     // middle of 40 .. 60, from memory

// Damp air slows oxidation: from 75 % RH linearly to half the rate at 100 %. Judgement, no source.
constexpr double kDampFrom = 0.75;
constexpr double kRateAtSaturation = 0.5;

/// exp(E/R (1/T_ref - 1/T)). Source: [freiesleben1977], [astm_c1074] annex.
double arrhenius(double kj_per_mol, Temperature temperature) {
  return std::exp(kj_per_mol / kGasConstant *
                  (1.0 / kReferenceTemperature.kelvin() - 1.0 / temperature.kelvin()));
}

double damp_factor(RelativeHumidity humidity) {
  if (humidity.fraction() <= kDampFrom) {
    return 1.0;
  }
  return 1.0 - (1.0 - kRateAtSaturation) * (humidity.fraction() - kDampFrom) / (1.0 - kDampFrom);
}

}  // namespace

std::string_view name_of(Mechanism mechanism) {
  for (const auto& [value, name] : kNames) {
    if (value == mechanism) {
      return name;
    }
  }
  return "";
}

std::optional<Mechanism> mechanism_named(std::string_view name) {
  for (const auto& [value, known] : kNames) {
    if (known == name) {
      return value;
    }
  }
  return std::nullopt;
}

std::optional<Antoine> antoine_of(std::string_view solvent) {
  for (const Antoine& known : kSolvents) {
    if (known.solvent == solvent) {
      return known;
    }
  }
  return std::nullopt;
}

Pressure vapour_pressure_of(const Antoine& solvent, Temperature temperature) {
  return Pressure::from_pascal(
      std::pow(10.0, solvent.a - solvent.b / (temperature.kelvin() + solvent.c)));
}

double RateLaw::rate(Temperature temperature, RelativeHumidity humidity) const {
  switch (mechanism) {
    case Mechanism::kElapsed:
      return 1.0;
    case Mechanism::kEvaporation:
      // The quotient of two vapour pressures, with one exponential.
      return std::exp(std::numbers::ln10 *
                      (solvent->b / (kReferenceTemperature.kelvin() + solvent->c) -
                       solvent->b / (temperature.kelvin() + solvent->c)));
    case Mechanism::kWaterLoss: {
      static const double reference =
          vapour_pressure_deficit(kReferenceTemperature, kReferenceHumidity).pascal();
      return vapour_pressure_deficit(temperature, humidity).pascal() / reference;
    }
    case Mechanism::kOxidation:
      return arrhenius(activation_kj_per_mol, temperature) * damp_factor(humidity);
    case Mechanism::kMoistureCure: {
      static const double reference =
          absolute_humidity_kg_per_m3(kReferenceTemperature, kReferenceHumidity);
      return arrhenius(activation_kj_per_mol, temperature) *
             absolute_humidity_kg_per_m3(temperature, humidity) / reference;
    }
    case Mechanism::kCoalescence:
    case Mechanism::kTwoPart:
    case Mechanism::kAcidCure:
      return arrhenius(activation_kj_per_mol, temperature);
  }
  return 0.0;
}

std::optional<Temperature> RateLaw::stops_below() const {
  if (mechanism == Mechanism::kAcidCure) {
    return Temperature::from_celsius(14.0);  // a supplier's sheet: "nothing much" below it
  }
  return std::nullopt;
}

std::string RateLaw::description() const {
  switch (mechanism) {
    case Mechanism::kElapsed:
      return "clock time";
    case Mechanism::kEvaporation:
      return fmt::format("evaporation of {}", solvent->solvent);
    case Mechanism::kWaterLoss:
      return "water loss";
    default:
      return fmt::format("{}, {:.0f} kJ/mol", name_of(mechanism), activation_kj_per_mol);
  }
}

bool RateLaw::operator==(const RateLaw& other) const {
  const std::string_view mine = solvent ? solvent->solvent : std::string_view();
  const std::string_view theirs = other.solvent ? other.solvent->solvent : std::string_view();
  return mechanism == other.mechanism && mine == theirs &&
         activation_kj_per_mol == other.activation_kj_per_mol;
}

RateLaw rate_law_of(Mechanism mechanism, std::optional<Antoine> solvent) {
  switch (mechanism) {
    case Mechanism::kEvaporation:
      return {mechanism, solvent, 0.0};
    case Mechanism::kCoalescence:
      return {mechanism, std::nullopt, kCoalescenceEnergy};
    case Mechanism::kOxidation:
      return {mechanism, std::nullopt, kOxidationEnergy};
    case Mechanism::kTwoPart:
      return {mechanism, std::nullopt, kTwoPartEnergy};
    case Mechanism::kAcidCure:
      return {mechanism, std::nullopt, kAcidCureEnergy};
    case Mechanism::kMoistureCure:
      return {mechanism, std::nullopt, kMoistureEnergy};
    case Mechanism::kElapsed:
    case Mechanism::kWaterLoss:
      break;
  }
  return {mechanism, std::nullopt, 0.0};
}

}  // namespace coatwright
