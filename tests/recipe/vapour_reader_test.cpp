// What evaporates from products, as their files give it. The format is ours: consistency checks,
// but where a source is named.
#include "recipe/vapour_reader.h"

#include <map>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "recipe/own_folder.h"
#include "recipe/product_reader.h"
#include "recipe/recipe_book.h"
#include "recipe/recipe_texts.h"

using namespace coatwright;
using test::check_refused;
using test::kProduct;
using test::OwnFolder;
using test::with;

namespace {

const std::string kVapour = R"([vapour]
flash_c = 38
boiling_c = 150
volatile_percent = 60
source = "judgement"
how = "judgement"
note = "a usual blend"

[[vapour.solvent]]
substance = "mineral spirits"
percent = 80

[[vapour.solvent]]
substance = "toluene"
percent = 15

)";

const RecipeBook& book() {
  static const RecipeBook kBook;
  return kBook;
}

const Substances& substances() {
  const auto all = book().substances();
  if (!all) {
    FAIL(all.error().text());
  }
  return **all;
}

std::string product_with(const std::string& vapour) {
  return with(kProduct, "[hazards]", vapour + "[hazards]");
}

std::string with_solids(const std::string& text) {
  return with(text,
              "[[stage]]\nname = \"dust-free\"",
              "solids_low_percent = 35\nsolids_high_percent = 50\nsolids_source = \"judgement\"\n"
              "\n[[stage]]\nname = \"dust-free\"");
}

Result<Product> read(const std::string& text) {
  return parse_product(text, "test-varnish.toml", "", &substances());
}

void refused(std::string_view passage,
             std::string_view other,
             const std::vector<std::string>& parts) {
  check_refused(read(product_with(with(kVapour, passage, other))), parts);
}

}  // namespace

TEST_CASE("A product is read with what evaporates from it", "[recipe]") {
  const auto product = read(product_with(kVapour));
  INFO((product ? std::string() : product.error().text()));
  REQUIRE(product);
  REQUIRE(product->vapour);
  const Vapour& vapour = *product->vapour;
  REQUIRE(vapour.flash);
  CHECK(vapour.flash->value.celsius() == Approx(38));
  CHECK(vapour.flash->source == "judgement");
  REQUIRE(vapour.boiling);
  CHECK(vapour.boiling->value.celsius() == Approx(150));
  CHECK(vapour.volatile_share == Approx(0.6));
  CHECK(vapour.how == "judgement");
  CHECK(vapour.note == "a usual blend");
  REQUIRE(vapour.solvents.size() == 2);
  CHECK(vapour.solvents[0].name == "mineral spirits");
  CHECK(vapour.solvents[0].substance == &substances().at("mineral spirits"));
  CHECK(vapour.solvents[1].share == Approx(0.15));
}

TEST_CASE("A product without a vapour has none, and one without a flash point too", "[recipe]") {
  CHECK_FALSE(read(kProduct)->vapour);
  const auto water = read(product_with(with(kVapour, "flash_c = 38\nboiling_c = 150\n", "")));
  REQUIRE(water);
  CHECK_FALSE(water->vapour->flash);
  CHECK_FALSE(water->vapour->boiling);
}

TEST_CASE("Unless it is said, all evaporates that the lowest solids leave", "[recipe]") {
  const std::string unsaid = product_with(with(kVapour, "volatile_percent = 60\n", ""));
  CHECK(read(with_solids(unsaid))->vapour->volatile_share == Approx(0.65));
  CHECK(read(with_solids(product_with(kVapour)))->vapour->volatile_share == Approx(0.6));
  check_refused(read(unsaid), {"vapour.volatile_percent", "missing"});
}

TEST_CASE("What is wrong in a product's vapour is named", "[recipe]") {
  refused("\"toluene\"",
          "\"toluen\"",
          {"test-varnish.toml", "vapour.solvent[2].substance", "'toluen'", "toluene"});
  refused("percent = 15", "percent = 25", {"vapour.solvent[2].percent", "25", "105"});
  refused("percent = 80", "percent = 0", {"vapour.solvent[1].percent", "above 0"});
  refused("\"toluene\"", "\"mineral spirits\"", {"vapour.solvent[2].substance", "once"});
  refused("volatile_percent = 60", "volatile_percent = 101", {"vapour.volatile_percent", "101"});
  refused("flash_c = 38", "flash_c = 150", {"vapour.flash_c", "below boiling_c"});
  refused("how = \"judgement\"", "how = \"known\"", {"vapour.how", "known"});
  refused("source = \"judgement\"\n", "", {"vapour.source", "missing"});
  refused("note =", "notes =", {"vapour.notes", "unknown key"});
  check_refused(read(product_with(kVapour.substr(0, kVapour.find("[[vapour.solvent]]")))),
                {"vapour.solvent", "missing"});
}

TEST_CASE("Read without a book, a vapour keeps its names and reckons with none of them",
          "[recipe]") {
  const auto alone = RecipeBook::read_product(product_with(kVapour), "alone.toml");
  REQUIRE(alone);
  CHECK(alone->vapour->solvents[0].substance == nullptr);
  CHECK(alone->vapour->solvents[0].name == "mineral spirits");
  CHECK(alone->vapour->voc_g_per_l() == 0.0);
}

// By hand: 0.6 l of volatile, of it 80 % of 780 g/l and 15 % of 862.3 g/l; the rest is water.
TEST_CASE("The organic compounds of a litre are those that evaporate", "[recipe]") {
  const auto product = read(product_with(kVapour));
  REQUIRE(product);
  CHECK(product->vapour->voc_g_per_l() == Approx(0.6 * (0.80 * 780 + 0.15 * 862.3)));
  const auto ammonia = read(product_with(
      with(with(kVapour, "\"toluene\"", "\"ammonia\""), "percent = 15", "percent = 1")));
  REQUIRE(ammonia);
  CHECK(ammonia->vapour->voc_g_per_l() == Approx(0.6 * 0.80 * 780));
}

TEST_CASE("A shop's own product gives off what its class does, by its own solids", "[recipe]") {
  const OwnFolder own;
  own.write("products/test-varnish.toml",
            with_solids(with(kProduct, "kind =", "made_from = \"oil-modified-varnish\"\nkind =")));
  own.write("products/second.toml",
            with(with(kProduct, "\"test-varnish\"", "\"second\""),
                 "kind =",
                 "made_from = \"test-varnish\"\nkind ="));
  const RecipeBook shop(own.path());
  const auto first = shop.product("test-varnish");
  REQUIRE(first);
  REQUIRE((*first)->vapour);
  CHECK((*first)->vapour->solvents.front().name == "mineral spirits");
  CHECK((*first)->vapour->solvents.front().substance ==
        &(*shop.substances())->at("mineral spirits"));
  CHECK((*first)->vapour->volatile_share == Approx(0.65));
  const auto second = shop.product("second");
  REQUIRE(second);
  REQUIRE((*second)->vapour);
  CHECK((*second)->vapour->volatile_share == Approx(0.65));
}

TEST_CASE("Products that are made from each other give off nothing that is known", "[recipe]") {
  const OwnFolder own;
  own.write("products/test-varnish.toml",
            with(kProduct, "kind =", "made_from = \"test-varnish\"\nkind ="));
  const auto product = RecipeBook(own.path()).product("test-varnish");
  REQUIRE(product);
}

TEST_CASE("Every product with a carrier says what evaporates from it", "[recipe]") {
  for (const std::string& name : book().product_names()) {
    CAPTURE(name);
    const auto product = book().product(name);
    REQUIRE(product);
    CHECK((*product)->vapour.has_value() == ((*product)->carrier != "none"));
  }
}

TEST_CASE("What never clears a room is no part of a blend that could", "[recipe]") {
  for (const std::string& name : book().product_names()) {
    CAPTURE(name);
    const Product& product = **book().product(name);
    for (const SolventShare& one :
         product.vapour ? product.vapour->solvents : std::vector<SolventShare>()) {
      CHECK_FALSE(one.substance->never_cleared);
    }
  }
}

// EVIDENCE: epa_40cfr59 table 1, from memory. Ours is the high end of a class as supplied, theirs a
// limit of what may be sold: they should be near each other.
TEST_CASE("What classes emit lies near what may be sold of them", "[recipe]") {
  const std::map<std::string, double> limits = {{"nitrocellulose-lacquer-spray", 680},
                                                {"brushing-lacquer", 680},
                                                {"nitrocellulose-sanding-sealer", 680},
                                                {"precatalysed-lacquer", 680},
                                                {"conversion-varnish", 725},
                                                {"dewaxed-shellac", 730},
                                                {"waxed-shellac", 730},
                                                {"oil-modified-varnish", 450},
                                                {"interior-alkyd-varnish", 450},
                                                {"alkyd-enamel", 450},
                                                {"oil-wiping-stain", 550}};
  for (const auto& [name, limit] : limits) {
    CAPTURE(name);
    const double emitted = (**book().product(name)).vapour->voc_g_per_l();
    CHECK(emitted > 0.75 * limit);
    CHECK(emitted < 1.25 * limit);
  }
}
