// What a coat sets free, against the rule's table of solvents and worked examples that were
// published.
#include "safety/coat_vapour.h"

#include <cstdio>
#include <list>
#include <string>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>

#include "air/data_table.h"
#include "safety/safety_products.h"

using namespace coatwright;
using test::DataRow;

namespace {

constexpr Temperature kSeventyFahrenheit = Temperature::from_fahrenheit(70.0);
const Volume kGallon = Volume::from_litres(3.785411784);  // exact, 231 in3

Substance substance_of(const std::string& name, double g_per_mol, double kg_per_m3) {
  Substance substance;
  substance.name = name;
  substance.molar_mass = MolarMass::from_g_per_mol(g_per_mol);
  substance.density = Known<Density>{Density::from_kg_per_m3(kg_per_m3), "table", "table"};
  return substance;
}

/// Those rows of the rule's table whose liquid is known.
std::vector<DataRow> rows_with_density() {
  std::vector<DataRow> rows;
  for (DataRow& row : test::data_table("dilution_table.csv")) {
    if (row.text("density_kg_per_m3") != "-") {
      rows.push_back(std::move(row));
    }
  }
  return rows;
}

Substance substance_of(const DataRow& row) {
  Substance substance = substance_of(
      row.text("solvent"), row.number("molar_mass_g_per_mol"), row.number("density_kg_per_m3"));
  substance.lower_explosive_limits = {
      {VapourFraction::from_percent(row.number("lel_percent")), "osha_1910_94", "from memory"}};
  return substance;
}

DataRow row_of(const std::string& solvent) {
  for (const DataRow& row : rows_with_density()) {
    if (row.text("solvent") == solvent) {
      return row;
    }
  }
  FAIL("no row " << solvent);
  return rows_with_density().front();
}

Product product_of(double volatile_share,
                   const std::vector<std::pair<const Substance*, double>>& solvents) {
  Product product;
  product.vapour = Vapour();
  product.vapour->volatile_share = volatile_share;
  for (const auto& [substance, share] : solvents) {
    product.vapour->solvents.push_back({substance, substance->name, share});
  }
  return product;
}

/// Cubic feet of air for a gallon of a solvent by the rule, from what its table prints.
double rule_air(const DataRow& row) {
  const double limit = row.number("lel_percent");
  return 4.0 * (100.0 - limit) * row.number("vapour_ft3_per_gal") / limit;
}

/// A vapour in the air with a limit of its own, of a cubic metre of air that holds it.
struct InAir {
  Substance substance;
  double share;
};

CoatVapour coat_of(const std::list<InAir>& air) {
  CoatVapour coat;
  for (const InAir& one : air) {
    coat.parts.push_back(
        {&one.substance, Volume::from_litres(0), AirVolume::from_cubic_metres(one.share)});
  }
  return coat;
}

InAir with_exposure_limit(double ppm, double limit_ppm) {
  InAir one{Substance(), ppm * 1e-6};
  one.substance.limits = {
      {"limit", Averaging::kShift, {VapourFraction::from_ppm(limit_ppm), "table", "table"}}};
  return one;
}

InAir with_explosive_limit(double percent, double limit_percent) {
  InAir one{Substance(), percent / 100.0};
  one.substance.lower_explosive_limits = {
      {VapourFraction::from_percent(limit_percent), "table", "table"}};
  return one;
}

}  // namespace

// EVIDENCE: osha_1910_94 (c)(6)(ii) table G-11, from memory
TEST_CASE("A gallon of each solvent of the rule's table takes the air that the rule says",
          "[safety]") {
  int rows = 0;
  for (const DataRow& row : rows_with_density()) {
    INFO(row.text("solvent"));
    const Substance substance = substance_of(row);
    const Product product = product_of(1.0, {{&substance, 1.0}});
    const CoatVapour coat = vapour_of(product, kGallon, kSeventyFahrenheit);
    REQUIRE(coat.parts.size() == 1);
    CHECK(coat.vapour().cubic_feet() == Approx(row.number("vapour_ft3_per_gal")).epsilon(0.051));
    CHECK(coat.air_against_fire().cubic_feet() == Approx(rule_air(row)).epsilon(0.051));
    ++rows;
  }
  CHECK(rows >= 20);
}

// EVIDENCE: osha_1910_94 (c)(6)(ii) table G-11, from memory: hand sum of three of its rows, half of
// the product being solids, as the rule has the solvent reduced for them
TEST_CASE("The parts of a blend add up to what the rule's rows do", "[safety]") {
  const DataRow rows[] = {row_of("toluene"), row_of("acetone"), row_of("n-butyl alcohol")};
  const double shares[] = {0.5, 0.3, 0.2};
  const Substance toluene = substance_of(rows[0]);
  const Substance acetone = substance_of(rows[1]);
  const Substance butanol = substance_of(rows[2]);
  const Product product = product_of(0.5, {{&toluene, 0.5}, {&acetone, 0.3}, {&butanol, 0.2}});
  double vapour = 0.0;
  double air = 0.0;
  for (int i = 0; i < 3; ++i) {
    vapour += 0.5 * shares[i] * rows[i].number("vapour_ft3_per_gal");
    air += 0.5 * shares[i] * rule_air(rows[i]);
  }
  const CoatVapour coat = vapour_of(product, kGallon, kSeventyFahrenheit);
  CHECK(coat.vapour().cubic_feet() == Approx(vapour).epsilon(0.015));
  CHECK(coat.air_against_fire().cubic_feet() == Approx(air).epsilon(0.015));
}

// EVIDENCE: crowl_louvar example of a mixture's lower limit, from memory: 0.8 % hexane, 2.0 %
// methane and 0.5 % ethylene of limits 1.2, 5.3 and 3.1 %, together 3.3 %, burn from 2.75 % on
TEST_CASE("A mixture's limit is that of the textbook's example of Le Chatelier", "[safety]") {
  const std::list<InAir> air = {with_explosive_limit(0.8, 1.2),
                                with_explosive_limit(2.0, 5.3),
                                with_explosive_limit(0.5, 3.1)};
  const CoatVapour coat = coat_of(air);
  CHECK(coat.vapour().cubic_metres() == Approx(0.033));
  // The whole of it at a quarter of the mixture's own limit.
  const double expected = 0.033 * (1.0 - 0.0275) / (0.25 * 0.0275);
  CHECK(coat.air_against_fire().cubic_metres() == Approx(expected).epsilon(0.006));
}

// EVIDENCE: acgih_ventilation rule of additive mixtures and its example, from memory: 400 ppm
// acetone of 500, 150 ppm sec-butyl acetate of 200 and 100 ppm methyl ethyl ketone of 200 come
// to 2.05
TEST_CASE("Vapours that act alike come to the published example's 2.05", "[safety]") {
  const std::list<InAir> air = {with_exposure_limit(400.0, 500.0),
                                with_exposure_limit(150.0, 200.0),
                                with_exposure_limit(100.0, 200.0)};
  const CoatVapour coat = coat_of(air);
  CHECK(coat.air_for_health().cubic_metres() == Approx(2.05));
  CHECK(coat.flow_for_health(std::chrono::hours(1), MixingFactor::perfect())
            .cubic_metres_per_hour() == Approx(2.05));
  CHECK(coat.flow_for_health(std::chrono::minutes(30), MixingFactor::from_number(5.0))
            .cubic_metres_per_hour() == Approx(2.05 * 2.0 * 5.0));
}

// EVIDENCE: acgih_ventilation problem of dilution for health, from memory: 2 pints of toluene in an
// hour, 50 ppm, K 5 take 12,627 cfm
TEST_CASE("A coat of toluene takes the flow of the manual's problem", "[safety]") {
  Substance toluene = substance_of("toluene", 92.13, 866.0);
  toluene.limits = {{"limit", Averaging::kShift, {VapourFraction::from_ppm(50.0), "t", "t"}}};
  const Product product = product_of(1.0, {{&toluene, 1.0}});
  const CoatVapour coat =
      vapour_of(product, Volume::from_litres(kGallon.litres() / 4.0), kSeventyFahrenheit);
  CHECK(coat.flow_for_health(std::chrono::hours(1), MixingFactor::from_number(5.0)).cfm() ==
        Approx(12627.0).epsilon(0.003));
}

TEST_CASE("Of a water-borne product the water is no vapour that counts", "[safety]") {
  const DataRow row = row_of("2-butoxyethanol");
  const Substance ether = substance_of(row);
  // Seven tenths evaporate, of which a tenth is solvent and the rest water.
  const Product product = product_of(0.7, {{&ether, 0.1}});
  const CoatVapour coat = vapour_of(product, kGallon, kSeventyFahrenheit);
  REQUIRE(coat.parts.size() == 1);
  CHECK(coat.parts.front().liquid.litres() == Approx(0.07 * kGallon.litres()));
  CHECK(coat.vapour().cubic_feet() ==
        Approx(0.07 * row.number("vapour_ft3_per_gal")).epsilon(0.03));
  CHECK(coat.voc_grams == Approx(0.07 * kGallon.litres() * row.number("density_kg_per_m3")));
}

TEST_CASE("A gas is no part of the liquid, and counts for nothing that is reckoned", "[safety]") {
  const Substance ether = substance_of(row_of("2-butoxyethanol"));
  Substance ammonia = substance_of("ammonia", 17.03, 1.0);
  ammonia.density.reset();
  ammonia.organic = false;
  const Product product = product_of(0.7, {{&ammonia, 0.01}, {&ether, 0.1}});
  const CoatVapour coat = vapour_of(product, kGallon, kSeventyFahrenheit);
  REQUIRE(coat.parts.size() == 1);
  CHECK(coat.parts.front().substance == &ether);
  CHECK(coat.voc_grams ==
        Approx(vapour_of(product_of(0.7, {{&ether, 0.1}}), kGallon, kSeventyFahrenheit).voc_grams));
}

TEST_CASE("A product whose file was read without a book, or without vapour, sets nothing free",
          "[safety]") {
  Product product = product_of(0.7, {});
  product.vapour->solvents.push_back({nullptr, "toluene", 1.0});
  const CoatVapour unknown = vapour_of(product, kGallon, kSeventyFahrenheit);
  CHECK(unknown.parts.empty());
  CHECK(unknown.voc_grams == 0.0);
  product.vapour.reset();
  const CoatVapour none = vapour_of(product, kGallon, kSeventyFahrenheit);
  CHECK(none.parts.empty());
  CHECK(none.air_against_fire().cubic_metres() == 0.0);
  CHECK(none.air_for_health().cubic_metres() == 0.0);
}

TEST_CASE("The lowest explosive limit and the strictest limit of exposure are reckoned with",
          "[safety]") {
  Substance substance = substance_of("solvent", 100.0, 800.0);
  CHECK(substance.lowest_explosive_limit() == nullptr);
  CHECK(substance.strictest_limit() == nullptr);
  substance.lower_explosive_limits = {{VapourFraction::from_percent(1.4), "a", "read"},
                                      {VapourFraction::from_percent(1.1), "b", "read"},
                                      {VapourFraction::from_percent(1.2), "c", "read"}};
  CHECK(substance.lowest_explosive_limit()->source == "b");
  const auto limit = [](const char* name, Averaging averaging, double ppm) {
    return ExposureLimit{name, averaging, {VapourFraction::from_ppm(ppm), "t", "read"}};
  };
  substance.limits = {limit("ceiling", Averaging::kCeiling, 20),
                      limit("short", Averaging::kShortTerm, 40)};
  CHECK(substance.strictest_limit()->name == "ceiling");
  substance.limits.push_back(limit("shift", Averaging::kShift, 200));
  CHECK(substance.strictest_limit()->name == "ceiling");  // though a shift has one of its own
  substance.limits.push_back(limit("stricter", Averaging::kShift, 10));
  CHECK(substance.strictest_limit()->name == "stricter");
}

TEST_CASE("Every built-in product that gives off vapour does so in sums that add up", "[safety]") {
  // Consistency check: what is left to all of the volatile part is water.
  for (const Product* one : {&test::product("nitrocellulose-lacquer-spray"),
                             &test::product("waterborne-clear"),
                             &test::product("oil-wiping-stain")}) {
    INFO(one->name);
    REQUIRE(one->vapour.has_value());
    const CoatVapour coat = vapour_of(*one, Volume::from_litres(1.0), kSeventyFahrenheit);
    double litres = 0.0;
    for (const VapourPart& part : coat.parts) {
      litres += part.liquid.litres();
    }
    CHECK(litres > 0.0);
    CHECK(litres <= one->vapour->volatile_share * 1.0001);
    // A litre of solvent is 100 to 700 L of vapour: rows of the rule's table, times its 7.48 US
    // gallons to the cubic foot, are 162 to 604.
    CHECK(coat.vapour().cubic_metres() / litres > 0.1);
    CHECK(coat.vapour().cubic_metres() / litres < 0.7);
  }
}

TEST_CASE("Residuals of the rule's air for a gallon", "[.residuals]") {
  for (const DataRow& row : rows_with_density()) {
    const Substance substance = substance_of(row);
    const Product product = product_of(1.0, {{&substance, 1.0}});
    const double air =
        vapour_of(product, kGallon, kSeventyFahrenheit).air_against_fire().cubic_feet();
    std::printf("air for a gallon  %-24s rule %8.0f ft3  computed %8.0f ft3  %+5.1f %%\n",
                row.text("solvent").c_str(),
                rule_air(row),
                air,
                100.0 * (air / rule_air(row) - 1.0));
  }
}
