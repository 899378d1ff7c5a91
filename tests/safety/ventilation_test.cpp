#include "safety/ventilation.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>

#include "air/data_table.h"

using namespace coatwright;
using test::DataRow;

namespace {

using Minutes = std::chrono::duration<double, std::ratio<60>>;

constexpr Temperature kSeventyFahrenheit = Temperature::from_fahrenheit(70.0);
constexpr double kLitresPerGallon = 3.785411784;  // exact, 231 in3

AirFlow litres_of_pints(double pints_per_minute, double specific_gravity, double molar_mass) {
  const AirVolume vapour =
      vapour_volume(Volume::from_litres(pints_per_minute * kLitresPerGallon / 8.0),
                    Density::from_kg_per_m3(specific_gravity * 1000.0),
                    MolarMass::from_g_per_mol(molar_mass),
                    kSeventyFahrenheit);
  return AirFlow::from_cfm(vapour.cubic_feet());
}

MixedRoom room_of(double cubic_feet, double cfm) {
  return {AirVolume::from_cubic_feet(cubic_feet), AirFlow::from_cfm(cfm)};
}

double minutes(std::optional<std::chrono::duration<double>> span) {
  REQUIRE(span.has_value());
  return Minutes(*span).count();
}

/// What a row of the rule's table says and what is computed for it, in percent of the row.
std::vector<std::pair<std::string, double>> vapour_residuals() {
  std::vector<std::pair<std::string, double>> residuals;
  for (const DataRow& row : test::data_table("dilution_table.csv")) {
    if (row.text("density_kg_per_m3") == "-") {
      continue;
    }
    const AirVolume vapour =
        vapour_volume(Volume::from_litres(kLitresPerGallon),
                      Density::from_kg_per_m3(row.number("density_kg_per_m3")),
                      MolarMass::from_g_per_mol(row.number("molar_mass_g_per_mol")),
                      kSeventyFahrenheit);
    const double printed = row.number("vapour_ft3_per_gal");
    residuals.emplace_back(row.text("solvent"), 100.0 * (vapour.cubic_feet() - printed) / printed);
  }
  return residuals;
}

MixedRoom room_of_changes(double per_hour) {
  return {AirVolume::from_cubic_metres(90.0), AirFlow::from_cubic_metres_per_hour(90.0 * per_hour)};
}

/// The columns of the purge table.
constexpr std::pair<double, const char*> kPurged[] = {
    {0.90, "minutes_90"}, {0.99, "minutes_99"}, {0.999, "minutes_99_9"}};

struct WorkedExample {
  const char* name;
  double printed;
  double computed;
};

/// Those of the tests above and below, in one list.
std::vector<WorkedExample> worked_examples() {
  const auto perfect = MixingFactor::perfect();
  const auto five = MixingFactor::from_number(5.0);
  const auto ppm = [](double value) { return VapourFraction::from_ppm(value); };
  const AirFlow chloroform = litres_of_pints(1.5 / 60.0, 1.32, 133.4);
  const AirFlow toluene = litres_of_pints(2.0 / 60.0, 0.866, 92.13);
  const MixedRoom hall = room_of(100000, 2000);
  const MixedRoom shop = room_of(75000, 2500);
  const AirVolume gallon = AirVolume::from_cubic_feet(30.4);
  return {
      {"dilution air for a gallon of toluene, ft3",
       8564.0,
       dilution_air(gallon, VapourFraction::from_percent(1.4)).cubic_feet()},
      {"methyl chloroform, K 1, cfm", 285.0, dilution_flow(chloroform, ppm(350), perfect).cfm()},
      {"methyl chloroform, K 5, cfm", 1425.0, dilution_flow(chloroform, ppm(350), five).cfm()},
      {"toluene, K 5, cfm", 12627.0, dilution_flow(toluene, ppm(50), five).cfm()},
      {"build-up to 200 ppm, min",
       20.3,
       minutes(time_between(hall, ppm(0), ppm(200), AirFlow::from_cfm(1.2)))},
      {"purging from 100 to 25 ppm, min",
       69.3,
       minutes(time_between(hall, ppm(100), ppm(25), AirFlow::from_cfm(0)))},
      {"build-up in 11 min, ppm",
       171.9,
       fraction_after(shop, ppm(0), AirFlow::from_cfm(1.4), std::chrono::minutes(11)).ppm()},
      {"build-up to 175 ppm, min",
       11.24,
       minutes(time_between(shop, ppm(0), ppm(175), AirFlow::from_cfm(1.4)))}};
}

/// Steps through the mass balance in tenths of a second.
double stepped_ppm(double volume, double flow, double source, double before, double seconds) {
  constexpr double kStep = 0.1;
  double vapour = before * 1e-6 * volume;
  for (int i = 0; i < static_cast<int>(std::lround(seconds / kStep)); ++i) {
    vapour += kStep * (source - flow * vapour / volume);
  }
  return vapour / volume * 1e6;
}

}  // namespace

// EVIDENCE: osha_1910_94 (c)(6)(ii) table G-11, from memory; the table prints steps of 0.8 ft3
TEST_CASE("The vapour of a gallon is that of the rule's table", "[safety]") {
  const auto residuals = vapour_residuals();
  REQUIRE(residuals.size() >= 20);
  double sum = 0.0;
  for (const auto& [solvent, percent] : residuals) {
    INFO(solvent);
    CHECK(std::abs(percent) < 5.1);
    sum += std::abs(percent);
  }
  CHECK(sum / static_cast<double>(residuals.size()) < 1.7);
}

// EVIDENCE: osha_1910_94 (c)(6)(ii) example of toluene: 8,564 ft3 per gallon, from memory
TEST_CASE("The rule's example of dilution air is reproduced", "[safety]") {
  const AirVolume air =
      dilution_air(AirVolume::from_cubic_feet(30.4), VapourFraction::from_percent(1.4));
  CHECK(air.cubic_feet() == Approx(8564.0).margin(0.5));
}

// EVIDENCE: acgih_ventilation problems of dilution for health, from memory; printed in whole cfm
TEST_CASE("The manual's problems of air for health are reproduced", "[safety]") {
  const auto perfect = MixingFactor::perfect();
  const auto five = MixingFactor::from_number(5.0);
  // Methyl chloroform: 1.5 pints in an hour, 350 ppm.
  const AirFlow chloroform = litres_of_pints(1.5 / 60.0, 1.32, 133.4);
  CHECK(dilution_flow(chloroform, VapourFraction::from_ppm(350), perfect).cfm() ==
        Approx(285.0).epsilon(0.003));
  CHECK(dilution_flow(chloroform, VapourFraction::from_ppm(350), five).cfm() ==
        Approx(1425.0).epsilon(0.003));
  // Toluene: 2 pints in an hour, 50 ppm, K 5; beside another solvent that needs 3,000 cfm.
  const AirFlow toluene =
      dilution_flow(litres_of_pints(2.0 / 60.0, 0.866, 92.13), VapourFraction::from_ppm(50), five);
  CHECK(toluene.cfm() == Approx(12627.0).epsilon(0.003));
  CHECK((toluene + AirFlow::from_cfm(3000.0)).cfm() == Approx(15627.0).epsilon(0.003));
}

// EVIDENCE: acgih_ventilation problem of an oven, from memory: xylene, a tenth of the limit, and
// the limit 0.7 times as high in the oven's heat
TEST_CASE("The manual's problem of air against fire is reproduced", "[safety]") {
  const AirFlow xylene = litres_of_pints(2.0 / 60.0, 0.88, 106.0);
  const AirVolume per_minute = AirVolume::from_cubic_feet(xylene.cfm());
  const VapourFraction limit = VapourFraction::from_percent(1.0 * 0.7);
  // The manual leaves out that the vapour itself takes room: 1 - LEL.
  CHECK(dilution_air(per_minute, limit, 0.1).cubic_feet() / (1.0 - limit.fraction()) ==
        Approx(159.0).epsilon(0.004));
}

// EVIDENCE: acgih_ventilation problems of build-up and purging, from memory; printed to 0.1 min
TEST_CASE("The manual's problems of build-up and purging are reproduced", "[safety]") {
  const auto room = MixedRoom::with_fan(
      AirVolume::from_cubic_feet(100000), AirFlow::from_cfm(6000), MixingFactor::from_number(3.0));
  CHECK(room.flow.cfm() == Approx(2000.0));
  CHECK(minutes(time_between(room,
                             VapourFraction::from_ppm(0),
                             VapourFraction::from_ppm(200),
                             AirFlow::from_cfm(1.2))) == Approx(20.3).margin(0.05));
  CHECK(minutes(time_between(room,
                             VapourFraction::from_ppm(100),
                             VapourFraction::from_ppm(25),
                             AirFlow::from_cfm(0))) == Approx(69.3).margin(0.05));
}

// EVIDENCE: rehs_help examples of build-up, read: 171.9 ppm, 11.24 min
TEST_CASE("Published examples of build-up are reproduced", "[safety]") {
  const MixedRoom room = room_of(75000, 2500);
  const VapourFraction after = fraction_after(
      room, VapourFraction::from_ppm(0), AirFlow::from_cfm(1.4), std::chrono::minutes(11));
  CHECK(after.ppm() == Approx(171.9).margin(0.05));
  CHECK(minutes(time_between(room,
                             VapourFraction::from_ppm(0),
                             VapourFraction::from_ppm(175),
                             AirFlow::from_cfm(1.4))) == Approx(11.24).margin(0.005));
}

// EVIDENCE: cdc_purge_table all rows, printed in whole minutes
TEST_CASE("A room is cleared as the published table says", "[safety]") {
  int rows = 0;
  for (const DataRow& row : test::data_table("purge_table.csv")) {
    const MixedRoom room = room_of_changes(row.number("air_changes_per_hour"));
    CHECK(room.air_changes_per_hour() == Approx(row.number("air_changes_per_hour")));
    for (const auto& [share, column] : kPurged) {
      INFO(row.text("air_changes_per_hour") << " " << column);
      CHECK(minutes(purge_time(room, share)) == Approx(row.number(column)).margin(0.53));
    }
    ++rows;
  }
  CHECK(rows >= 20);
}

TEST_CASE("Build-up follows the mass balance stepped through in small steps", "[safety]") {
  for (const double flow : {0.0, 0.02, 0.5}) {
    for (const double before : {0.0, 900.0}) {
      const MixedRoom room{AirVolume::from_cubic_metres(90.0),
                           AirFlow::from_cubic_metres_per_second(flow)};
      const VapourFraction after = fraction_after(room,
                                                  VapourFraction::from_ppm(before),
                                                  AirFlow::from_cubic_metres_per_second(2e-5),
                                                  std::chrono::minutes(25));
      CHECK(after.ppm() == Approx(stepped_ppm(90.0, flow, 2e-5, before, 25 * 60)).epsilon(0.002));
    }
  }
}

TEST_CASE("What a room never comes to takes no time but never", "[safety]") {
  const MixedRoom room = room_of(1000, 100);
  const auto none = AirFlow::from_cfm(0.0);
  const auto ten = VapourFraction::from_ppm(10);
  const auto hundred = VapourFraction::from_ppm(100);
  CHECK_FALSE(time_between(room, ten, hundred, none).has_value());
  CHECK_FALSE(time_between(room, ten, hundred, AirFlow::from_cfm(0.001)).has_value());
  CHECK_FALSE(time_between(room_of(1000, 0), hundred, ten, none).has_value());
  CHECK_FALSE(time_between(room_of(1000, 0), hundred, ten, AirFlow::from_cfm(1)).has_value());
  CHECK(minutes(time_between(room_of(1000, 0), ten, hundred, AirFlow::from_cfm(0.09))) ==
        Approx(1.0));
  CHECK(time_between(room, ten, ten, none)->count() == 0.0);
}

TEST_CASE("Residuals of the vapour volumes", "[.residuals]") {
  double sum = 0.0;
  double most = 0.0;
  const auto residuals = vapour_residuals();
  for (const auto& [solvent, percent] : residuals) {
    std::printf("vapour of a gallon  %-24s %+5.1f %%\n", solvent.c_str(), percent);
    sum += std::abs(percent);
    most = std::max(most, std::abs(percent));
  }
  std::printf("vapour of a gallon  %zu rows: mean %.2f %%, greatest %.2f %%\n",
              residuals.size(),
              sum / static_cast<double>(residuals.size()),
              most);
}

TEST_CASE("Residuals of the purge table", "[.residuals]") {
  double sum = 0.0;
  double most = 0.0;
  int values = 0;
  for (const DataRow& row : test::data_table("purge_table.csv")) {
    const auto room = room_of_changes(row.number("air_changes_per_hour"));
    for (const auto& [share, column] : kPurged) {
      const double residual = minutes(purge_time(room, share)) - row.number(column);
      sum += std::abs(residual);
      most = std::max(most, std::abs(residual));
      ++values;
    }
  }
  std::printf("purge table         %d values: mean %.2f min, greatest %.2f min (whole minutes)\n",
              values,
              sum / values,
              most);
}

TEST_CASE("Residuals of the worked examples", "[.residuals]") {
  for (const WorkedExample& one : worked_examples()) {
    std::printf("worked example      %-44s printed %9.2f  computed %9.2f  %+5.2f %%\n",
                one.name,
                one.printed,
                one.computed,
                100.0 * (one.computed / one.printed - 1.0));
  }
}
