// Mixing, preparation, storage, usual coats and film data as product files give them. The format is
// ours: consistency checks throughout.
#include "recipe/care_reader.h"

#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "recipe/product_reader.h"
#include "recipe/recipe_texts.h"

using namespace coatwright;
using test::check_refused;
using test::kProduct;
using test::with;

namespace {

const std::string kMix = R"([mix]
by = "volume"
parts_source = "judgement"
pot_life_low_hours = 2
pot_life_high_hours = 8
mechanism = "two-part"
pot_life_source = "judgement"
induction_minutes = 10
induction_source = "judgement"

[[mix.part]]
name = "base"
parts = 3

[[mix.part]]
name = "hardener"
parts = 1

)";

const std::string kCare = R"([[preparation]]
when = "flakes"
text = "Dissolve them."
minutes = 15
low_hours = 8
high_hours = 24
source = "judgement"

[storage]
shelf = { months = 12, source = "judgement", note = "cool" }
opened = { months = 6, source = "judgement" }

[usual_coats]
low = 2
high = 3
source = "judgement"

)";

std::string product_with(const std::string& tables) {
  return with(kProduct, "[limits]\n", tables + "[limits]\n");
}

Product read(const std::string& text) {
  Result<Product> product = parse_product(text, "test-varnish.toml");
  if (!product) {
    FAIL(product.error().text());
  }
  return std::move(*product);
}

void check_bent(const std::string& tables,
                std::string_view passage,
                std::string_view other,
                const std::vector<std::string>& parts) {
  check_refused(parse_product(product_with(with(tables, passage, other)), "test-varnish.toml"),
                parts);
}

std::string film_with(const std::string& keys) {
  return with(
      kProduct, "spread_source = \"judgement\"\n", "spread_source = \"judgement\"\n" + keys);
}

}  // namespace

TEST_CASE("A mix is read with its parts, pot life and standing time", "[recipe]") {
  const Product product = read(product_with(kMix));
  REQUIRE(product.mix);
  REQUIRE(product.mix->parts.size() == 2);
  CHECK(product.mix->parts[0].name == "base");
  CHECK(product.mix->parts[0].parts == 3.0);
  CHECK_FALSE(product.mix->by_mass);
  REQUIRE(product.mix->pot_life);
  CHECK(product.mix->pot_life->high().hours() == 8.0);
  CHECK(product.mix->pot_life_law.mechanism == Mechanism::kTwoPart);
  CHECK(product.mix->induction.minutes() == Approx(10.0));
}

TEST_CASE("A mix without a pot life or standing time has none", "[recipe]") {
  std::string mix = kMix;
  mix.erase(mix.find("pot_life_low_hours"), mix.find("[[mix.part]]") - mix.find("pot_life_low"));
  const Product product = read(product_with(mix));
  REQUIRE(product.mix);
  CHECK_FALSE(product.mix->pot_life);
  CHECK(product.mix->induction.hours() == 0.0);
  CHECK(product.mix->induction_source.empty());
}

TEST_CASE("A mix that is wrong is refused", "[recipe]") {
  check_bent(kMix, "[[mix.part]]\nname = \"hardener\"\nparts = 1\n", "", {"mix", "two or more"});
  check_bent(kMix, "by = \"volume\"", "by = \"eye\"", {"mix.by", "\"eye\"", "volume, mass"});
  check_bent(kMix, "parts = 3", "parts = 0", {"mix.part[1].parts"});
  check_bent(kMix, "pot_life_high_hours = 8", "pot_life_high_hours = 1", {"pot_life_high_hours"});
  check_bent(kMix, "pot_life_source = \"judgement\"\n", "", {"mix.pot_life_source"});
  check_bent(kMix, "mechanism = \"two-part\"\n", "", {"mix.mechanism"});
  check_bent(kMix, "induction_source = \"judgement\"\n", "", {"mix.induction_source"});
  check_bent(kMix, "parts_source", "source_of_parts", {"mix", "source"});
}

TEST_CASE("Preparation, storage and usual coats are read", "[recipe]") {
  const Product product = read(product_with(kCare));
  REQUIRE(product.preparations.size() == 1);
  CHECK(product.preparations[0].when == PreparationCase::kFlakes);
  CHECK(product.preparations[0].text == "Dissolve them.");
  CHECK(product.preparations[0].minutes == 15.0);
  CHECK(product.preparations[0].lead.low().hours() == 8.0);
  CHECK(product.storage.shelf_months->value == 12.0);
  CHECK(product.storage.shelf_months->note == "cool");
  CHECK(product.storage.opened_months->value == 6.0);
  REQUIRE(product.usual_coats);
  CHECK(product.usual_coats->low == 2);
  CHECK(product.usual_coats->high == 3);
}

TEST_CASE("Preparation, storage and usual coats that are wrong are refused", "[recipe]") {
  check_bent(
      kCare, "\"flakes\"", "\"sometimes\"", {"preparation[1].when", "always, flakes, cold-can"});
  check_bent(kCare, "text = \"Dissolve them.\"\n", "", {"preparation[1].text"});
  check_bent(kCare, "high_hours = 24", "high_hours = 4", {"preparation[1].high_hours"});
  check_bent(kCare, "months = 12", "months = 0", {"shelf.months"});
  check_bent(kCare, "months = 6, source = \"judgement\"", "months = 6", {"opened.source"});
  check_bent(kCare, "opened = {", "open = {", {"open"});
  check_bent(kCare, "high = 3", "high = 1", {"usual_coats.high", "at least low, 2"});
  check_bent(kCare, "low = 2", "low = 21", {"usual_coats.low"});
}

TEST_CASE("A film may say its solids and how much of it a piece bears", "[recipe]") {
  const Product product = read(film_with(
      "solids_low_percent = 25\nsolids_high_percent = 40\nsolids_source = \"judgement\"\n"
      "total_dry_max_um = 127\ntotal_dry_source = \"judgement\"\ntotal_dry_note = \"5 mil\"\n"));
  REQUIRE(product.film.solids);
  CHECK(product.film.solids->value.low == 25.0);
  CHECK(product.film.solids->value.high == 40.0);
  REQUIRE(product.film.total_dry_max);
  CHECK(product.film.total_dry_max->value.micrometres() == Approx(127.0));
  CHECK(product.film.total_dry_max->note == "5 mil");
}

TEST_CASE("Solids and total film that are wrong are refused", "[recipe]") {
  const auto refused = [](const std::string& keys, const std::vector<std::string>& parts) {
    check_refused(parse_product(film_with(keys), "test-varnish.toml"), parts);
  };
  refused("solids_low_percent = 25\n", {"film.solids_high_percent"});
  refused("solids_low_percent = 25\nsolids_high_percent = 20\nsolids_source = \"judgement\"\n",
          {"film.solids_high_percent", "at least solids_low_percent, 25"});
  refused("solids_low_percent = 25\nsolids_high_percent = 101\nsolids_source = \"judgement\"\n",
          {"film.solids_high_percent"});
  refused("solids_low_percent = 25\nsolids_high_percent = 40\n", {"film.solids_source"});
  refused("total_dry_max_um = 127\n", {"film.total_dry_source"});
  refused("total_dry_max_um = 0\ntotal_dry_source = \"judgement\"\n", {"film.total_dry_max_um"});
}
