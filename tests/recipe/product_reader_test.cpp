#include "recipe/product_reader.h"

#include <catch2/catch.hpp>

#include "recipe/recipe_texts.h"
#include "recipe/timing_reader.h"

using namespace coatwright;
using test::check_refused;
using test::kProduct;
using test::line_of;
using test::with;

namespace {

const std::string kLabel = "own/test-varnish.toml";

Product product_of(const std::string& text) {
  Result<Product> product = parse_product(text, kLabel, "test-varnish");
  if (!product) {
    FAIL(product.error().text());
  }
  return std::move(*product);
}

/// Checks that replacing a passage makes the product wrong.
/// @param at what, in the replacement or after it, stands on the line that the error names; empty:
///   where the replacement begins.
void check_bent(std::string_view passage,
                const std::string& other,
                std::vector<std::string> parts,
                std::string_view at = "") {
  const std::string text = with(kProduct, passage, other);
  parts.push_back(kLabel);
  if (!other.empty()) {
    parts.push_back(line_of(text, at, kProduct.find(passage)));
  }
  check_refused(parse_product(text, kLabel), parts);
}

}  // namespace

TEST_CASE("A product is read with every key where it belongs", "[recipe]") {
  // Consistency check: the format is ours.
  const Product product = product_of(kProduct);
  CHECK(product.title == "Test varnish");
  CHECK(product.kind == ProductKind::kClearFilm);
  CHECK(product.carrier == "mineral spirits");
  CHECK(product.methods == std::vector<Method>{Method::kBrush, Method::kPad});
  CHECK(product.oxidises);
  CHECK_FALSE(product.raises_grain);
  CHECK(product.abrade_grit == "P320");
  CHECK(product.film.reference_wet->value.micrometres() == 100.0);
  CHECK(product.film.spread_high_m2_per_l == 12.5);
  CHECK(product.limits.temperature_max->value.celsius() == Approx(32.0));
  CHECK(product.limits.temperature_max->note == "dries too fast");
  CHECK(product.limits.humidity_max->value.fraction() == Approx(0.75));
  CHECK(product.limits.dew_point_spread_min->value.kelvin() == 3.0);
  CHECK_FALSE(product.limits.humidity_min);
  CHECK(product.limits.critical_stage == Stage::kDustFree);
  CHECK(product.hazards.rags_self_heat);
  CHECK_FALSE(product.hazards.nitrocellulose);
  CHECK(product.hazards.cautions.size() == 1);
  CHECK_FALSE(product.wipe_off);
}

TEST_CASE("A stage after another is that stage's phases and the rest of the time", "[recipe]") {
  // Consistency check: 12 - 1 and 24 - 2 hours are left for the second phase.
  const Product product = product_of(kProduct);
  const DryingStage* recoat = product.stage(Stage::kRecoat);
  REQUIRE(recoat != nullptr);
  REQUIRE(recoat->timing.phases.size() == 2);
  const Phase& first = recoat->timing.phases[0];
  const Phase& second = recoat->timing.phases[1];
  CHECK(first.law.mechanism == Mechanism::kEvaporation);
  CHECK(first.law.solvent->solvent == "n-decane");
  CHECK(first.film_exponent == 1.0);
  CHECK(second.law == rate_law_of(Mechanism::kOxidation));
  CHECK(second.duration.low().hours() == Approx(11.0));
  CHECK(second.duration.high().hours() == Approx(22.0));
  CHECK(second.film_exponent == 0.0);
  CHECK(recoat->note == "overnight");
}

TEST_CASE("A recoat interval without an opening opens with the recoat stage", "[recipe]") {
  const Product product = product_of(kProduct);
  REQUIRE(product.recoat.size() == 1);
  const RecoatInterval& interval = product.recoat.front();
  CHECK(interval.condition == RecoatCondition::kAbrade);
  CHECK(interval.opens.phases.size() == 2);
  CHECK(interval.opens.whole() == product.stage(Stage::kRecoat)->timing.whole());
  REQUIRE(interval.closes);
  REQUIRE(interval.closes->phases.size() == 1);
  CHECK(interval.closes->phases[0].law.mechanism == Mechanism::kOxidation);
  CHECK(interval.closes->phases[0].duration.high().hours() == 72.0);
}

TEST_CASE("A recoat interval with an opening keeps the laws of the recoat stage", "[recipe]") {
  const std::string text = with(kProduct,
                                "closes_low_hours = 48\n",
                                "opens_low_hours = 30\nopens_high_hours = 32\n"
                                "closes_low_hours = 48\n");
  const RecoatInterval interval = product_of(text).recoat.front();
  REQUIRE(interval.opens.phases.size() == 2);
  CHECK(interval.opens.phases[0].duration.low().hours() == 1.0);
  CHECK(interval.opens.phases[1].duration.low().hours() == Approx(29.0));
  CHECK(interval.opens.phases[1].duration.high().hours() == Approx(30.0));
  CHECK(interval.opens.phases[1].law.mechanism == Mechanism::kOxidation);
}

TEST_CASE("A time known as one figure has low equal to high", "[recipe]") {
  const Product product = product_of(
      with(kProduct, "low_hours = 1\nhigh_hours = 2\n", "low_hours = 2\nhigh_hours = 2\n"));
  CHECK(product.stage(Stage::kDustFree)->timing.whole().log_spread() == 0.0);
}

TEST_CASE("An activation energy of the product's own overrides the usual one", "[recipe]") {
  const Product product = product_of(with(kProduct,
                                          "mechanism = \"oxidation\"",
                                          "mechanism = \"oxidation\"\nactivation_kj_per_mol = 62"));
  CHECK(product.stage(Stage::kRecoat)->timing.phases[1].law.activation_kj_per_mol == 62.0);
}

TEST_CASE("Without a recoat stage the hours of an interval follow an earlier one", "[recipe]") {
  std::string text =
      with(kProduct, "name = \"recoat\"\nafter = \"dust-free\"", "name = \"dry-hard\"");
  SECTION("and its opening is required") {
    check_refused(parse_product(text, kLabel),
                  {"recoat[1]", line_of(text, "[[recoat]]"), "opens_low_hours"});
  }
  SECTION("by the law of the latest stage before recoat") {
    text = with(text, "[[recoat]]\n", "[[recoat]]\nopens_low_hours = 20\nopens_high_hours = 30\n");
    const RecoatInterval interval = product_of(text).recoat.front();
    REQUIRE(interval.opens.phases.size() == 1);
    CHECK(interval.opens.phases[0].law.mechanism == Mechanism::kOxidation);
    CHECK(interval.opens.whole().low().hours() == 20.0);
  }
}

TEST_CASE("An interval that forbids the next coat needs no opening", "[recipe]") {
  const std::string text = with(kProduct, "condition = \"abrade\"", "condition = \"never\"");
  const RecoatInterval interval = product_of(text).recoat.front();
  CHECK(interval.condition == RecoatCondition::kNever);
  CHECK(interval.opens.phases.empty());
  CHECK(interval.closes);
}

TEST_CASE("A wipe-off opens by the clock and closes by a law", "[recipe]") {
  const std::string wipe_off =
      "[wipe_off]\nopens_minutes = 5\ncloses_minutes = 15\nmechanism = \"evaporation\"\n"
      "solvent = \"n-nonane\"\nsource = \"judgement\"\n\n[limits]";
  const Product product = product_of(with(kProduct, "[limits]", wipe_off));
  REQUIRE(product.wipe_off);
  CHECK(product.wipe_off->opens.minutes() == Approx(5.0));
  CHECK(product.wipe_off->closes.minutes() == Approx(15.0));
  CHECK(product.wipe_off->closing_law.solvent->solvent == "n-nonane");
  check_bent("[limits]",
             with(wipe_off, "closes_minutes = 15", "closes_minutes = 4"),
             {"wipe_off.closes_minutes", "found 4", "opens_minutes, 5"},
             "closes_minutes");
}

TEST_CASE("A key that is not known is refused with the keys that are", "[recipe]") {
  check_bent("title = \"Test varnish\"",
             "title = \"Test varnish\"\nbrand = \"x\"",
             {"brand", "unknown key", "found \"x\"", "abrade_grit", "carrier"},
             "brand");
  const std::string text = with(kProduct, "note = \"overnight\"", "remark = \"overnight\"");
  check_refused(parse_product(text, kLabel),
                {kLabel, line_of(text, "remark"), "stage[2].remark", "film_exponent", "low_hours"});
}

TEST_CASE("Of several unknown keys the first in the file is named", "[recipe]") {
  check_bent("title = \"Test varnish\"",
             "zeal = 1\ntitle = \"Test varnish\"\nbrand = 2",
             {"zeal: unknown key, found 1"});
}

TEST_CASE("A long value is cut between characters where an error shows it", "[recipe]") {
  std::string long_text = "x";
  for (int i = 0; i < 100; ++i) {
    long_text += "\u00e9";
  }
  check_bent("\"clear-film\"", "\"" + long_text + "\"", {"\u00e9...\"; allowed: stain"});
}

TEST_CASE("A solvent is a key of evaporation alone", "[recipe]") {
  check_bent("after = \"dust-free\"\nlow_hours = 12",
             "solvent = \"toluene\"\nafter = \"dust-free\"\nlow_hours = 12",
             {"stage[2].solvent", "unknown key"});
}

TEST_CASE("A value of another type is refused with what is allowed", "[recipe]") {
  check_bent("low_hours = 12",
             "low_hours = \"12 h\"",
             {"stage[2].low_hours", "found \"12 h\"", "a number, above 0, up to 5000"});
  check_bent(
      "oxidises = true", "oxidises = \"yes\"", {"oxidises", "found \"yes\"", "true or false"});
  check_bent("carrier = \"mineral spirits\"", "carrier = 5", {"carrier", "found 5", "a text"});
  check_bent("methods = [\"brush\", \"pad\"]", "methods = \"brush\"", {"methods", "a list of"});
  check_bent("{ celsius = 13, source = \"judgement\" }", "13", {"temperature_min", "a table"});
  check_bent("title = \"Test varnish\"", "title = 1979-05-27", {"title", "found a date or time"});
}

TEST_CASE("A key that is missing is named, with one that may be meant for it", "[recipe]") {
  const std::string text = with(kProduct, "carrier = ", "carier = ");
  check_refused(parse_product(text, kLabel),
                {kLabel, "carrier", "missing", "is 'carier' meant for it?"});
  check_bent("low_hours = 12\n",
             "",
             {"stage[2].low_hours", "missing", line_of(kProduct, "[[stage]]\nname = \"recoat\"")});
  check_bent("flammable = true\n", "", {"hazards.flammable", "missing", "true or false"});
  check_bent("{ celsius = 13, source = \"judgement\" }",
             "{ celsius = 13 }",
             {"limits.temperature_min.source", "missing"});
}

TEST_CASE("A source may not be empty", "[recipe]") {
  check_bent("spread_source = \"judgement\"",
             "spread_source = \" \"",
             {"film.spread_source", "a text that is not empty"});
}

TEST_CASE("A number out of its range is refused with the range", "[recipe]") {
  check_bent("low_hours = 12", "low_hours = 0", {"stage[2].low_hours", "found 0", "above 0"});
  check_bent("high_hours = 24", "high_hours = 5000.5", {"found 5000.5", "up to 5000"});
  check_bent("high_hours = 24", "high_hours = nan", {"found nan", "up to 5000"});
  check_bent(
      "high_hours = 24", "high_hours = 11", {"stage[2].high_hours", "at least the low of 12"});
  check_bent("film_exponent = 1", "film_exponent = 2.5", {"stage[1].film_exponent", "0 to 2"});
  check_bent("percent = 75", "percent = 175", {"limits.humidity_max.percent", "0 to 100"});
  check_bent("spread_high_m2_per_l = 12.5",
             "spread_high_m2_per_l = 7",
             {"film.spread_high_m2_per_l", "at least spread_low_m2_per_l, 8"});
  check_bent("temperature_max = { celsius = 32",
             "temperature_max = { celsius = 12",
             {"limits.temperature_max", "above temperature_min"});
  check_bent("mechanism = \"oxidation\"",
             "mechanism = \"oxidation\"\nactivation_kj_per_mol = 9",
             {"stage[2].activation_kj_per_mol", "10 to 200"},
             "activation");
}

TEST_CASE("A word that is not known is refused with the words that are", "[recipe]") {
  check_bent("mechanism = \"oxidation\"",
             "mechanism = \"drying\"",
             {"stage[2].mechanism", "found \"drying\"", "evaporation, water-loss, coalescence"});
  check_bent("solvent = \"n-decane\"",
             "solvent = \"turpentine\"",
             {"stage[1].solvent", "found \"turpentine\"", "n-butyl acetate", "n-decane"});
  check_bent("name = \"recoat\"",
             "name = \"recoatable\"",
             {"stage[2].name", "found \"recoatable\"", "dust-free", "full-cure"});
  check_bent("\"pad\"]", "\"roll\"]", {"methods", "found \"roll\"", "wipe, brush, pad, spray"});
  check_bent("kind = \"clear-film\"",
             "kind = \"paint\"",
             {"kind", "stain, filler, sealer, clear-film, enamel, oil, wax"});
  check_bent("condition = \"abrade\"",
             "condition = \"maybe\"",
             {"recoat[1].condition", "none, abrade, never"});
  check_bent("abrade_grit = \"P320\"", "abrade_grit = \"320\"", {"abrade_grit", "P320"});
}

TEST_CASE("Every solvent that a message offers has a vapour pressure", "[recipe]") {
  // Consistency check between two rooms.
  for (const std::string_view solvent : known_solvents()) {
    CAPTURE(solvent);
    CHECK(antoine_of(solvent).has_value());
  }
}

TEST_CASE("A text that is not TOML is refused with its line", "[recipe]") {
  check_bent("carrier = \"mineral spirits\"", "carrier = mineral spirits", {"not TOML"});
  check_bent("carrier = \"mineral spirits\"",
             "carrier = \"a\"\ncarrier = \"b\"",
             {"not TOML"},
             "carrier = \"b\"");
}

TEST_CASE("A name that differs from the file's is refused", "[recipe]") {
  check_refused(parse_product(kProduct, kLabel, "other-varnish"),
                {kLabel, "line 2:", "name", "found \"test-varnish\"", "\"other-varnish\""});
  check_bent("name = \"test-varnish\"", "name = \"Test Varnish\"", {"name", "lower-case letters"});
}

TEST_CASE("A format that this program does not read is refused", "[recipe]") {
  check_bent("format = 1", "format = 2", {"format", "found 2", "allowed: 1"});
  check_bent("format = 1", "format = \"1\"", {"format", "found \"1\""});
  check_bent("format = 1\n", "", {"format", "missing"});
}

TEST_CASE("A stage must be longer than the one it comes after", "[recipe]") {
  check_bent("after = \"dust-free\"\nlow_hours = 12\nhigh_hours = 24",
             "after = \"dust-free\"\nlow_hours = 1\nhigh_hours = 24",
             {"stage[2].after", "1 to 2 h", "leaves nothing", "1 to 24 h"});
  check_bent("after = \"dust-free\"",
             "after = \"tack-free\"",
             {"stage[2].after", "found \"tack-free\"", "allowed: dust-free"});
  check_bent("name = \"dust-free\"",
             "after = \"recoat\"\nname = \"dust-free\"",
             {"stage[1].after", "there is none"});
}

TEST_CASE("An opening must be longer than the phases before its last", "[recipe]") {
  const std::string text =
      with(kProduct, "[[recoat]]\n", "[[recoat]]\nopens_low_hours = 0.5\nopens_high_hours = 30\n");
  check_refused(parse_product(text, kLabel),
                {"recoat[1]", line_of(text, "[[recoat]]"), "0.5 to 30 h", "leaves nothing"});
}

TEST_CASE("A window must not close before it opens", "[recipe]") {
  const std::string text = with(kProduct, "closes_low_hours = 48", "closes_low_hours = 6");
  check_refused(parse_product(text, kLabel),
                {"recoat[1]", line_of(text, "[[recoat]]"), "closes before it opens"});
}

TEST_CASE("A product that is to be abraded says with which grit", "[recipe]") {
  check_bent("abrade_grit = \"P320\"\n", "", {"recoat[1]", "abrade_grit"});
}

TEST_CASE("The limits hold until a stage that the product has", "[recipe]") {
  check_bent("humidity_max = ",
             "critical_stage = \"tack-free\"\nhumidity_max = ",
             {"limits.critical_stage", "found \"tack-free\"", "allowed: dust-free, recoat"});
}

TEST_CASE("A stage is given once", "[recipe]") {
  check_bent("name = \"recoat\"\nafter = \"dust-free\"",
             "name = \"dust-free\"",
             {"stage[2].name", "each stage once"});
}
