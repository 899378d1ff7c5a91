#pragma once

#include <chrono>
#include <compare>

/// What vapour in the air of a room is measured in; SI inside.
namespace coatwright {

/// A volume of air or vapour, also that of a room.
class AirVolume {
 public:
  static constexpr double kCubicMetresPerCubicFoot = 0.028316846592;  // exact

  static constexpr AirVolume from_cubic_metres(double value) { return AirVolume(value); }
  static constexpr AirVolume from_cubic_feet(double value) {
    return AirVolume(value * kCubicMetresPerCubicFoot);
  }
  [[nodiscard]] constexpr double cubic_metres() const { return cubic_metres_; }
  [[nodiscard]] constexpr double cubic_feet() const {
    return cubic_metres_ / kCubicMetresPerCubicFoot;
  }
  constexpr auto operator<=>(const AirVolume&) const = default;
  friend constexpr AirVolume operator+(AirVolume a, AirVolume b) {
    return AirVolume(a.cubic_metres_ + b.cubic_metres_);
  }
  friend constexpr AirVolume operator*(AirVolume a, double factor) {
    return AirVolume(a.cubic_metres_ * factor);
  }

 private:
  explicit constexpr AirVolume(double value) : cubic_metres_(value) {}
  double cubic_metres_;
};

/// A flow of air or vapour.
class AirFlow {
 public:
  static constexpr AirFlow from_cubic_metres_per_hour(double value) {
    return AirFlow(value / 3600.0);
  }
  static constexpr AirFlow from_cubic_metres_per_second(double value) { return AirFlow(value); }
  /// Cubic feet per minute.
  static constexpr AirFlow from_cfm(double value) {
    return AirFlow(value * AirVolume::kCubicMetresPerCubicFoot / 60.0);
  }
  [[nodiscard]] constexpr double cubic_metres_per_second() const { return per_second_; }
  [[nodiscard]] constexpr double cubic_metres_per_hour() const { return per_second_ * 3600.0; }
  [[nodiscard]] constexpr double cfm() const {
    return per_second_ * 60.0 / AirVolume::kCubicMetresPerCubicFoot;
  }
  constexpr auto operator<=>(const AirFlow&) const = default;
  friend constexpr AirFlow operator+(AirFlow a, AirFlow b) {
    return AirFlow(a.per_second_ + b.per_second_);
  }
  friend constexpr AirFlow operator*(AirFlow a, double factor) {
    return AirFlow(a.per_second_ * factor);
  }

 private:
  explicit constexpr AirFlow(double value) : per_second_(value) {}
  double per_second_;
};

/// The share of vapour in air by volume, 0 to 1.
class VapourFraction {
 public:
  static constexpr VapourFraction from_fraction(double value) { return VapourFraction(value); }
  static constexpr VapourFraction from_percent(double value) {
    return VapourFraction(value / 100.0);
  }
  static constexpr VapourFraction from_ppm(double value) { return VapourFraction(value * 1e-6); }
  [[nodiscard]] constexpr double fraction() const { return fraction_; }
  [[nodiscard]] constexpr double percent() const { return fraction_ * 100.0; }
  [[nodiscard]] constexpr double ppm() const { return fraction_ * 1e6; }
  constexpr auto operator<=>(const VapourFraction&) const = default;

 private:
  explicit constexpr VapourFraction(double value) : fraction_(value) {}
  double fraction_;
};

class MolarMass {
 public:
  static constexpr MolarMass from_g_per_mol(double value) { return MolarMass(value); }
  [[nodiscard]] constexpr double g_per_mol() const { return g_per_mol_; }
  constexpr auto operator<=>(const MolarMass&) const = default;

 private:
  explicit constexpr MolarMass(double value) : g_per_mol_(value) {}
  double g_per_mol_;
};

/// Of a liquid.
class Density {
 public:
  static constexpr Density from_kg_per_m3(double value) { return Density(value); }
  [[nodiscard]] constexpr double kg_per_m3() const { return kg_per_m3_; }
  [[nodiscard]] constexpr double g_per_l() const { return kg_per_m3_; }
  constexpr auto operator<=>(const Density&) const = default;

 private:
  explicit constexpr Density(double value) : kg_per_m3_(value) {}
  double kg_per_m3_;
};

}  // namespace coatwright
