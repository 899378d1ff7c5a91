#pragma once

#include <chrono>
#include <compare>

/// Physical quantities as types: SI inside, other units only through named factories and accessors,
/// so that a bare number never crosses from one room to another.
namespace coatwright {

/// A temperature difference; not a temperature.
class TemperatureDifference {
 public:
  static constexpr TemperatureDifference from_kelvin(double value) {
    return TemperatureDifference(value);
  }
  [[nodiscard]] constexpr double kelvin() const { return kelvin_; }
  [[nodiscard]] constexpr double fahrenheit_degrees() const { return kelvin_ * 1.8; }
  constexpr auto operator<=>(const TemperatureDifference&) const = default;

 private:
  explicit constexpr TemperatureDifference(double value) : kelvin_(value) {}
  double kelvin_;
};

/// A temperature on the thermodynamic scale.
class Temperature {
 public:
  static constexpr double kIcePointKelvin = 273.15;

  static constexpr Temperature from_kelvin(double value) { return Temperature(value); }
  static constexpr Temperature from_celsius(double value) {
    return Temperature(value + kIcePointKelvin);
  }
  static constexpr Temperature from_fahrenheit(double value) {
    return from_celsius((value - 32.0) / 1.8);
  }
  [[nodiscard]] constexpr double kelvin() const { return kelvin_; }
  [[nodiscard]] constexpr double celsius() const { return kelvin_ - kIcePointKelvin; }
  [[nodiscard]] constexpr double fahrenheit() const { return celsius() * 1.8 + 32.0; }
  constexpr auto operator<=>(const Temperature&) const = default;

  friend constexpr TemperatureDifference operator-(Temperature a, Temperature b) {
    return TemperatureDifference::from_kelvin(a.kelvin_ - b.kelvin_);
  }
  friend constexpr Temperature operator+(Temperature a, TemperatureDifference d) {
    return Temperature(a.kelvin_ + d.kelvin());
  }

 private:
  explicit constexpr Temperature(double value) : kelvin_(value) {}
  double kelvin_;
};

/// Relative humidity over liquid water, 0 to 1.
class RelativeHumidity {
 public:
  static constexpr RelativeHumidity from_fraction(double value) { return RelativeHumidity(value); }
  static constexpr RelativeHumidity from_percent(double value) {
    return RelativeHumidity(value / 100.0);
  }
  [[nodiscard]] constexpr double fraction() const { return fraction_; }
  [[nodiscard]] constexpr double percent() const { return fraction_ * 100.0; }
  constexpr auto operator<=>(const RelativeHumidity&) const = default;

 private:
  explicit constexpr RelativeHumidity(double value) : fraction_(value) {}
  double fraction_;
};

/// A pressure or partial pressure.
class Pressure {
 public:
  static constexpr Pressure from_pascal(double value) { return Pressure(value); }
  [[nodiscard]] constexpr double pascal() const { return pascal_; }
  constexpr auto operator<=>(const Pressure&) const = default;

 private:
  explicit constexpr Pressure(double value) : pascal_(value) {}
  double pascal_;
};

/// Mass of water vapour per mass of dry air.
class HumidityRatio {
 public:
  static constexpr HumidityRatio from_kg_per_kg(double value) { return HumidityRatio(value); }
  [[nodiscard]] constexpr double kg_per_kg() const { return value_; }
  constexpr auto operator<=>(const HumidityRatio&) const = default;

 private:
  explicit constexpr HumidityRatio(double value) : value_(value) {}
  double value_;
};

/// A length: an altitude, the thickness of a piece. Films have their own type.
class Length {
 public:
  static constexpr double kMetresPerInch = 0.0254;  // exact
  static constexpr double kMetresPerFoot = 0.3048;  // exact

  static constexpr Length from_metres(double value) { return Length(value); }
  static constexpr Length from_millimetres(double value) { return Length(value / 1000.0); }
  static constexpr Length from_inches(double value) { return Length(value * kMetresPerInch); }
  static constexpr Length from_feet(double value) { return Length(value * kMetresPerFoot); }
  [[nodiscard]] constexpr double metres() const { return metres_; }
  [[nodiscard]] constexpr double millimetres() const { return metres_ * 1000.0; }
  [[nodiscard]] constexpr double inches() const { return metres_ / kMetresPerInch; }
  [[nodiscard]] constexpr double feet() const { return metres_ / kMetresPerFoot; }
  constexpr auto operator<=>(const Length&) const = default;

 private:
  explicit constexpr Length(double value) : metres_(value) {}
  double metres_;
};

/// A film thickness.
class FilmThickness {
 public:
  static constexpr double kMicrometresPerMil = 25.4;

  static constexpr FilmThickness from_micrometres(double value) { return FilmThickness(value); }
  static constexpr FilmThickness from_mils(double value) {
    return FilmThickness(value * kMicrometresPerMil);
  }
  [[nodiscard]] constexpr double micrometres() const { return micrometres_; }
  [[nodiscard]] constexpr double mils() const { return micrometres_ / kMicrometresPerMil; }
  constexpr auto operator<=>(const FilmThickness&) const = default;

 private:
  explicit constexpr FilmThickness(double value) : micrometres_(value) {}
  double micrometres_;
};

/// An area to be finished.
class Area {
 public:
  static constexpr double kSquareMetresPerSquareFoot = 0.09290304;  // exact

  static constexpr Area from_square_metres(double value) { return Area(value); }
  static constexpr Area from_square_feet(double value) {
    return Area(value * kSquareMetresPerSquareFoot);
  }
  [[nodiscard]] constexpr double square_metres() const { return square_metres_; }
  [[nodiscard]] constexpr double square_feet() const {
    return square_metres_ / kSquareMetresPerSquareFoot;
  }
  constexpr auto operator<=>(const Area&) const = default;

 private:
  explicit constexpr Area(double value) : square_metres_(value) {}
  double square_metres_;
};

/// A volume of liquid.
class Volume {
 public:
  static constexpr double kLitresPerUsQuart = 0.946352946;  // exact, 231 in3 / 4

  static constexpr Volume from_litres(double value) { return Volume(value); }
  static constexpr Volume from_us_quarts(double value) { return Volume(value * kLitresPerUsQuart); }
  [[nodiscard]] constexpr double litres() const { return litres_; }
  [[nodiscard]] constexpr double us_quarts() const { return litres_ / kLitresPerUsQuart; }
  constexpr auto operator<=>(const Volume&) const = default;

 private:
  explicit constexpr Volume(double value) : litres_(value) {}
  double litres_;
};

/// An amount of drying or working time as a real number of hours; clock times are Time.
class Hours {
 public:
  static constexpr Hours from_hours(double value) { return Hours(value); }
  static constexpr Hours from_minutes(double value) { return Hours(value / 60.0); }
  static constexpr Hours from_seconds(std::chrono::seconds value) {
    return Hours(static_cast<double>(value.count()) / 3600.0);
  }
  [[nodiscard]] constexpr double hours() const { return hours_; }
  [[nodiscard]] constexpr double minutes() const { return hours_ * 60.0; }
  constexpr auto operator<=>(const Hours&) const = default;
  friend constexpr Hours operator+(Hours a, Hours b) { return Hours(a.hours_ + b.hours_); }
  friend constexpr Hours operator-(Hours a, Hours b) { return Hours(a.hours_ - b.hours_); }
  friend constexpr Hours operator*(Hours a, double factor) { return Hours(a.hours_ * factor); }

 private:
  explicit constexpr Hours(double value) : hours_(value) {}
  double hours_;
};

/// How quantities are shown; the core does not know it.
enum class UnitSystem { kMetric, kUs };

}  // namespace coatwright
