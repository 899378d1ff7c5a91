// The products against the table that their figures were taken from: the windows of each class.
// EVIDENCE: trade_finishing_web, federal_specs and, where the table's status is M, from-memory. The
// table may lie beside the repository; without it only the list of classes is checked.
#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>

#include "recipe/recipe_book.h"
#include "recipe/reference_table.h"

namespace coatwright {
namespace {

using test::table;

/// The classes of the tables, and the products that stand for them.
const std::map<std::string, std::string>& products_of_classes() {
  static const std::map<std::string, std::string> kProducts = {
      {"stain_oil_wiping", "oil-wiping-stain"},
      {"stain_water", "water-stain"},
      {"stain_dye_alcohol", "alcohol-dye-stain"},
      {"stain_gel", "gel-stain"},
      {"shellac_dewaxed_sealer", "dewaxed-shellac"},
      {"sealer_sanding_nc", "nitrocellulose-sanding-sealer"},
      {"sealer_vinyl", "vinyl-sealer"},
      {"lacquer_nc_spray", "nitrocellulose-lacquer-spray"},
      {"lacquer_brushing", "brushing-lacquer"},
      {"lacquer_nc_aerosol", "nitrocellulose-lacquer-aerosol"},
      {"lacquer_precat", "precatalysed-lacquer"},
      {"varnish_conversion", "conversion-varnish"},
      {"waterborne_pu_acrylic", "waterborne-clear"},
      {"varnish_oil_modified_pu", "oil-modified-varnish"},
      {"varnish_oleoresinous_rubbing", "rubbing-varnish"},
      {"varnish_interior_alkyd", "interior-alkyd-varnish"},
      {"varnish_wiping", "wiping-varnish"},
      {"oil_varnish_blend", "oil-varnish-blend"},
      {"oil_linseed_boiled", "boiled-linseed-oil"},
      {"oil_linseed_raw", "raw-linseed-oil"},
      {"oil_tung_pure", "tung-oil"},
      {"oil_hardwax", "hardwax-oil"},
      {"pu_2k_solvent", "two-part-polyurethane"},
      {"pu_moisture_cure", "moisture-cure-polyurethane"},
      {"enamel_alkyd", "alkyd-enamel"},
      {"enamel_waterborne", "waterborne-enamel"},
      {"filler_grain_oil", "oil-grain-filler"},
      {"filler_grain_water", "water-grain-filler"},
      {"wax_paste", "paste-wax"},
      {"epoxy_seal", "epoxy-sealer"},
  };
  return kProducts;
}

/// The fields of the table that are times to a stage.
const std::map<std::string, Stage>& stages_of_fields() {
  static const std::map<std::string, Stage> kStages = {
      {"dust_free", Stage::kDustFree},
      {"touch", Stage::kTackFree},
      {"touch_max", Stage::kTackFree},
      {"tack_free", Stage::kTackFree},
      {"dry_hard_max", Stage::kDryHard},
      {"full_hard", Stage::kDryHard},
      {"sand", Stage::kSandable},
      {"recoat_min", Stage::kRecoat},
      {"handle", Stage::kHandle},
      {"stack", Stage::kPrintFree},
      {"light_use", Stage::kLightUse},
      {"full_cure", Stage::kFullCure},
      {"per_coat_cure", Stage::kFullCure},
  };
  return kStages;
}

/// Where a product keeps another range than the table on purpose, and why.
const std::map<std::pair<std::string, std::string>, std::string>& exceptions() {
  static const std::map<std::pair<std::string, std::string>, std::string> kExceptions = {
      {{"stain_oil_wiping", "recoat_min"}, "12 to 24 h of its note: fast kinds go by their label"},
      {{"shellac_dewaxed_sealer", "sand"}, "common practice waits 2 h, or it gums the paper"},
      {{"oil_hardwax", "recoat_min"},
       "not before it may be dust-free, which alone takes 6 to 12 h"},
      {{"stain_dye_alcohol", "wipe_off"}, "within a minute is one movement: no window of its own"},
      {{"pu_moisture_cure", "RH_app"}, "the note has bloom and foam above 80 %: the stricter"},
  };
  return kExceptions;
}

struct Row {
  std::string name;
  std::string field;
  double low = 0;
  double high = 0;
  std::string unit;
};

/// @return none for a row without figures.
std::optional<Row> row_of(const std::vector<std::string>& cells) {
  if (cells.size() < 6 || cells[3].empty()) {
    return std::nullopt;
  }
  return Row{cells[0], cells[2], std::stod(cells[3]), std::stod(cells[4]), cells[5]};
}

std::vector<Row> class_rows() {
  std::vector<Row> rows;
  for (const auto& cells : table("kinetics_classes.csv")) {
    if (auto row = row_of(cells)) {
      rows.push_back(std::move(*row));
    }
  }
  return rows;
}

double in_hours(double value, const std::string& unit) {
  if (unit == "min") {
    return value / 60.0;
  }
  return unit == "d" ? value * 24.0 : value;
}

const Product& product(const RecipeBook& book, const std::string& name) {
  const Result<const Product*> found = book.product(name);
  if (!found) {
    FAIL(found.error().message);
  }
  return **found;
}

/// Figures in hours are written to two places.
constexpr double kRounding = 0.0051;

void check_hours(const DurationRange& found, const Row& row) {
  CHECK(found.low().hours() == Approx(in_hours(row.low, row.unit)).margin(kRounding));
  CHECK(found.high().hours() == Approx(in_hours(row.high, row.unit)).margin(kRounding));
}

void check_wipe_off(const Product& found, const Row& row) {
  REQUIRE(found.wipe_off);
  CHECK(found.wipe_off->opens.minutes() == Approx(row.low));
  CHECK(found.wipe_off->closes.minutes() == Approx(row.high));
}

void check_pot_life(const Product& found, const Row& row) {
  if (row.unit == "months") {  // catalysed by its supplier
    REQUIRE(found.storage.shelf_months);
    CHECK(found.storage.shelf_months->value == Approx(row.low));  // the stricter
    return;
  }
  REQUIRE(found.mix);
  REQUIRE(found.mix->pot_life);
  check_hours(*found.mix->pot_life, row);
}

void check_closing(const Product& found, const Row& row) {
  REQUIRE_FALSE(found.recoat.empty());
  CHECK(found.recoat.front().condition == RecoatCondition::kNone);
  REQUIRE(found.recoat.front().closes);
  check_hours(found.recoat.front().closes->whole(), row);
}

void check_coats(const Product& found, const Row& row) {
  REQUIRE(found.usual_coats);
  CHECK(found.usual_coats->low == static_cast<int>(row.low));
  CHECK(found.usual_coats->high == static_cast<int>(row.high));
}

void check_temperatures(const Product& found, const Row& row) {
  REQUIRE(found.limits.temperature_min);
  REQUIRE(found.limits.temperature_max);
  CHECK(found.limits.temperature_min->value.celsius() == Approx(row.low));
  CHECK(found.limits.temperature_max->value.celsius() == Approx(row.high));
}

void check_humidities(const Product& found, const Row& row) {
  REQUIRE(found.limits.humidity_min);
  REQUIRE(found.limits.humidity_max);
  CHECK(found.limits.humidity_min->value.percent() == Approx(row.low));
  CHECK(found.limits.humidity_max->value.percent() == Approx(row.high));
}

void check_coverage(const Product& found, const Row& row) {
  CHECK(found.film.spread_low_m2_per_l == Approx(row.low));
  CHECK(found.film.spread_high_m2_per_l == Approx(row.high));
}

void check_wet_film(const Product& found, const Row& row) {
  REQUIRE(found.film.reference_wet);
  CHECK(found.film.reference_wet->value.micrometres() >= row.low);
  CHECK(found.film.reference_wet->value.micrometres() <= row.high);
}

void check_solids(const Product& found, const Row& row) {
  REQUIRE(found.film.solids);
  CHECK(found.film.solids->value.low == Approx(row.low));
  CHECK(found.film.solids->value.high == Approx(row.high));
}

/// The strictest of what sources allow.
void check_damp(const Product& found, const Row& row) {
  REQUIRE(found.limits.humidity_max);
  CHECK(found.limits.humidity_max->value.percent() == Approx(row.low));
}

using Check = void (*)(const Product&, const Row&);

const std::map<std::string, Check>& other_checks() {
  static const std::map<std::string, Check> kChecks = {
      {"wipe_off", &check_wipe_off},
      {"haze_before_wipe", &check_wipe_off},
      {"haze_before_buff", &check_wipe_off},
      {"pot_life", &check_pot_life},
      {"recoat_max_before_abrade", &check_closing},
      {"coats", &check_coats},
      {"T_app", &check_temperatures},
      {"RH_app", &check_humidities},
      {"RH_max", &check_damp},
      {"coverage", &check_coverage},
      {"wft", &check_wet_film},
      {"solids_vol", &check_solids},
  };
  return kChecks;
}

/// @return whether the row was one that a product answers.
bool check_row(const Product& found, const Row& row) {
  const auto stage = stages_of_fields().find(row.field);
  if (stage != stages_of_fields().end()) {
    const DryingStage* drying = found.stage(stage->second);
    REQUIRE(drying != nullptr);
    check_hours(drying->timing.whole(), row);
    return true;
  }
  const auto other = other_checks().find(row.field);
  if (other == other_checks().end()) {
    return false;
  }
  other->second(found, row);
  return true;
}

}  // namespace

TEST_CASE("Every class of finish has a product", "[recipe]") {
  const RecipeBook book;
  for (const auto& [name, stands_for_it] : products_of_classes()) {
    CAPTURE(name);
    CHECK(product(book, stands_for_it).name == stands_for_it);
  }
  for (const auto& cells : table("kinetics_classes.csv")) {
    CAPTURE(cells.front());
    CHECK(products_of_classes().contains(cells.front()));
  }
}

TEST_CASE("Every range of the classes stands in their products", "[recipe]") {
  // EVIDENCE: trade_finishing_web, federal_specs, from-memory: the table of classes
  const RecipeBook book;
  std::set<std::string> answered;
  for (const Row& row : class_rows()) {
    if (exceptions().contains({row.name, row.field})) {
      continue;
    }
    CAPTURE(row.name, row.field, row.low, row.high, row.unit);
    if (check_row(product(book, products_of_classes().at(row.name)), row)) {
      answered.insert(row.name);
    }
  }
  CHECK((answered.empty() || answered.size() == products_of_classes().size()));
}

TEST_CASE("Every exception from the table of classes is one", "[recipe]") {
  const RecipeBook book;  // consistency check: none stays in the list once it is needless
  const std::vector<Row> rows = class_rows();
  for (const auto& [key, reason] : exceptions()) {
    CAPTURE(key.first, key.second, reason);
    std::size_t found = 0;
    for (const Row& row : rows) {
      found += (row.name == key.first && row.field == key.second) ? 1 : 0;
    }
    CHECK((rows.empty() || found == 1));
  }
}

}  // namespace coatwright
