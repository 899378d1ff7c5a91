#include "safety/fire_category.h"

#include <string>

#include <catch2/catch.hpp>

#include "air/data_table.h"
#include "safety/safety_products.h"

using namespace coatwright;

namespace {

FireCategory category(double flash_c, double boiling_c) {
  return fire_category(Temperature::from_celsius(flash_c), Temperature::from_celsius(boiling_c));
}

}  // namespace

// EVIDENCE: un_ghs_2_6 lines between the categories; clp_annex_vi classes of single liquids
TEST_CASE("Liquids belong to the published category of their flash and boiling points",
          "[safety]") {
  for (const test::DataRow& row : test::data_table("safety/fire_categories.csv")) {
    CAPTURE(row.text("liquid"));
    const auto found = category(row.number("flash_c"), row.number("boiling_c"));
    CHECK(static_cast<int>(found) == static_cast<int>(row.number("category")));
  }
}

// EVIDENCE: osha_1910_106 the same lines in degrees Fahrenheit
TEST_CASE("The lines are the same in degrees Fahrenheit", "[safety]") {
  const auto of = [](double flash_f, double boiling_f) {
    return fire_category(Temperature::from_fahrenheit(flash_f),
                         Temperature::from_fahrenheit(boiling_f));
  };
  CHECK(of(73.3, 94.9) == FireCategory::kOne);
  CHECK(of(73.3, 95.1) == FireCategory::kTwo);
  CHECK(of(73.5, 95.1) == FireCategory::kThree);
  CHECK(of(139.9, 300) == FireCategory::kThree);
  CHECK(of(140.1, 300) == FireCategory::kFour);
  CHECK(of(199.3, 400) == FireCategory::kFour);
  CHECK(of(199.5, 400) == FireCategory::kNone);
}

// EVIDENCE: nfpa497_2008 flash point 22 C; clp_annex_vi has it in category 3 (H226), from memory.
// The figures alone put it into 2, the stricter one; a supplier's data sheet may say 3.
TEST_CASE("n-Butyl acetate lies a degree on the stricter side of a line", "[safety]") {
  const auto all = test::book().substances();
  REQUIRE(all);
  const Substance& acetate = (*all)->at("n-butyl acetate");
  CHECK(acetate.flash->value.celsius() == Approx(22));
  CHECK(fire_category(acetate.flash->value, acetate.boiling->value) == FireCategory::kTwo);
  CHECK(category(23, 126.1) == FireCategory::kThree);
}

TEST_CASE("Without a boiling point the stricter category is taken", "[safety]") {
  CHECK(fire_category(Temperature::from_celsius(4), std::nullopt) == FireCategory::kOne);
  CHECK(fire_category(Temperature::from_celsius(40), std::nullopt) == FireCategory::kThree);
  CHECK(fire_category(std::nullopt, std::nullopt) == FireCategory::kNone);
}

// EVIDENCE: un_ghs_2_6 codes, statements and signal words, from memory
TEST_CASE("Each category has its statement and signal word", "[safety]") {
  CHECK(statement_of(FireCategory::kOne)->code == "H224");
  CHECK(statement_of(FireCategory::kOne)->words == "Extremely flammable liquid and vapour");
  CHECK(statement_of(FireCategory::kTwo)->code == "H225");
  CHECK(statement_of(FireCategory::kTwo)->words == "Highly flammable liquid and vapour");
  CHECK(statement_of(FireCategory::kTwo)->signal == "Danger");
  CHECK(statement_of(FireCategory::kThree)->code == "H226");
  CHECK(statement_of(FireCategory::kThree)->signal == "Warning");
  CHECK(statement_of(FireCategory::kFour)->code == "H227");
  CHECK(statement_of(FireCategory::kFour)->words == "Combustible liquid");
  CHECK(statement_of(FireCategory::kNone) == nullptr);
}

// The one is said by hand in [hazards], the other follows from [vapour].
TEST_CASE("A product is called flammable where its flash point puts it in categories 1 to 3",
          "[safety]") {
  for (const std::string& name : test::book().product_names()) {
    CAPTURE(name);
    const Product& product = test::product(name);
    const FireCategory found = fire_category(product);
    const bool flammable = found >= FireCategory::kOne && found <= FireCategory::kThree;
    CHECK(product.hazards.flammable == flammable);
  }
}

// A blend may flash lower than its parts seldom; it is not above the lowest of them on the cautious
// side. Consistency check.
TEST_CASE("No product flashes later than the most volatile part of its blend", "[safety]") {
  for (const std::string& name : test::book().product_names()) {
    const Product& product = test::product(name);
    if (!product.vapour || !product.vapour->flash) {
      continue;
    }
    for (const SolventShare& one : product.vapour->solvents) {
      CAPTURE(name, one.name);
      REQUIRE(one.substance->flash);
      CHECK(product.vapour->flash->value <= one.substance->flash->value);
    }
  }
}
