#include "air/wood_moisture.h"

#include <string>

#include <catch2/catch.hpp>

#include "reference_table.h"

using namespace coatwright;

namespace {

double percent_at(Temperature temperature, double humidity_percent) {
  return 100.0 * equilibrium_moisture_content(temperature,
                                              RelativeHumidity::from_percent(humidity_percent));
}

struct Cell {
  double fahrenheit;
  double humidity;
  double moisture;
};

}  // namespace

TEST_CASE("Wood moisture agrees with the Wood Handbook's table", "[air]") {
  // EVIDENCE: wood_handbook2010 ch. 4 table 4-2, every third cell at hand. The table is printed to
  // 0.1 % in F and computed by the same equation, so this tests the code, not the wood; the C form
  // differs from it by up to 0.055.
  constexpr Cell kTable[] = {
      {30, 5, 1.4},   {30, 20, 4.6},   {30, 35, 7.1},   {30, 55, 10.4}, {40, 5, 1.4},
      {40, 35, 7.1},  {40, 55, 10.4},  {40, 85, 18.5},  {50, 15, 3.6},  {50, 30, 6.3},
      {50, 50, 9.5},  {50, 65, 12.3},  {50, 80, 16.4},  {60, 15, 3.6},  {60, 35, 7.0},
      {60, 50, 9.4},  {60, 65, 12.1},  {60, 80, 16.2},  {70, 5, 1.3},   {70, 25, 5.4},
      {70, 45, 8.5},  {70, 60, 11.0},  {70, 75, 14.4},  {70, 95, 23.9}, {80, 15, 3.5},
      {80, 30, 6.1},  {80, 50, 9.1},   {80, 75, 14.2},  {80, 95, 23.6}, {90, 15, 3.4},
      {90, 30, 5.9},  {90, 45, 8.1},   {90, 60, 10.5},  {90, 75, 13.9}, {90, 95, 23.3},
      {100, 15, 3.3}, {100, 40, 7.2},  {100, 95, 22.9}, {110, 15, 3.2}, {110, 30, 5.6},
      {110, 55, 9.2}, {110, 80, 14.7}, {110, 95, 22.4}, {120, 15, 3.0}, {120, 30, 5.4},
      {120, 45, 7.5}, {120, 65, 10.6}, {120, 85, 16.2}, {130, 5, 1.0},  {130, 25, 4.5},
      {130, 40, 6.6}, {130, 60, 9.4},  {130, 80, 14.0},
  };
  for (const Cell& cell : kTable) {
    CAPTURE(cell.fahrenheit, cell.humidity);
    CHECK(percent_at(Temperature::from_fahrenheit(cell.fahrenheit), cell.humidity) ==
          Approx(cell.moisture).margin(0.06));
  }
}

TEST_CASE("Wood moisture agrees with the makers' rule at room temperature", "[air]") {
  // EVIDENCE: common-practice, a trade magazine's figures, independent of the equation's
  // coefficients
  const auto room = Temperature::from_celsius(20);
  CHECK(percent_at(room, 30) == Approx(6).margin(0.5));
  CHECK(percent_at(room, 50) == Approx(9).margin(0.5));
  CHECK(percent_at(room, 65) == Approx(12).margin(0.5));
  CHECK(percent_at(room, 80) == Approx(16).margin(0.5));
}

TEST_CASE("Bone-dry air dries wood to nothing, damper air leaves it wetter", "[air]") {
  // EVIDENCE: wood_handbook2010 ch. 4: moisture rises with humidity and falls with temperature
  const auto room = Temperature::from_celsius(20);
  CHECK(percent_at(room, 0) == 0.0);
  for (double humidity = 5; humidity <= 100; humidity += 5) {
    CAPTURE(humidity);
    CHECK(percent_at(room, humidity) > percent_at(room, humidity - 5));
    CHECK(percent_at(room, humidity) > percent_at(Temperature::from_celsius(45), humidity));
  }
}

TEST_CASE("Wood moisture agrees with every cell of the reference table", "[air]") {
  // EVIDENCE: wood_handbook2010 ch. 4 table 4-2
  const auto rows = test::reference_table("air_emc.csv");
  if (!rows) {
    WARN("skipped: the optional folder of reference tables is absent");
    return;
  }
  CHECK(rows->size() >= 150);
  for (test::TableRow row : *rows) {
    CAPTURE(row["temp_f"], row["rh_percent"]);
    const auto temperature = Temperature::from_fahrenheit(std::stod(row["temp_f"]));
    CHECK(percent_at(temperature, std::stod(row["rh_percent"])) ==
          Approx(std::stod(row["table_emc_percent"])).margin(0.06));
  }
}
