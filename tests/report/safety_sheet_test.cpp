#include "report/safety_sheet.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "report/page_checks.h"
#include "safety/safety_products.h"

using namespace coatwright;
using test::sheet_of;

namespace {

std::vector<std::string> pages_of(const std::string& text) {
  std::vector<std::string> pages(1);
  for (const char c : text) {
    if (c == '\f') {
      pages.emplace_back();
    } else {
      pages.back() += c;
    }
  }
  return pages;
}

/// Width, length, head and foot of every page.
void check_pages(const std::string& text) {
  const auto pages = pages_of(text);
  for (std::size_t i = 0; i < pages.size(); ++i) {
    sample::check_page(pages[i]);
    const auto lines = sample::lines_of(pages[i]);
    CHECK(lines.size() <= kPageLines);
    REQUIRE(lines.size() > 2);
    CHECK_THAT(lines[0], Catch::StartsWith("SAFETY SHEET"));
    CHECK_THAT(
        lines[0],
        Catch::EndsWith("page " + std::to_string(i + 1) + " of " + std::to_string(pages.size())));
    CHECK_THAT(pages[i], Catch::Contains("come before this sheet"));
  }
}

/// The words of the page's statements alone, without heads, labels and feet.
std::string body_words(const std::string& text) {
  std::string words;
  for (const std::string& page : pages_of(text)) {
    bool inside = false;
    for (const std::string& line : sample::lines_of(page)) {
      const bool foot = line.starts_with("----");
      inside = !foot && (inside || line.empty());
      words += inside && line.size() > 12 ? line.substr(12) + "\n" : "";
    }
  }
  return sample::unwrapped(words);
}

void check_nothing_is_left_out(const SafetySheet& sheet, const std::string& text) {
  const std::string words = body_words(text);
  for (const SheetSection& section : sheet.sections) {
    for (const SheetStatement& entry : section.statements) {
      CAPTURE(entry.statement->text);
      const bool foot = section.section == SafetySection::kEveryPage;
      CHECK(sample::times_in(words, "- " + entry.statement->text) == (foot ? 0 : 1));
    }
  }
}

}  // namespace

TEST_CASE("The sheet of every product keeps to its pages and leaves nothing out", "[report]") {
  for (const std::string& name : test::book().product_names()) {
    CAPTURE(name);
    const SafetySheet sheet = sheet_of({name});
    const std::string text = show_safety_sheet(sheet);
    check_pages(text);
    check_nothing_is_left_out(sheet, text);
    CHECK(text.find('[') == std::string::npos);
  }
}

TEST_CASE("The sheet of all products goes on to further pages", "[report]") {
  const SafetySheet sheet = sheet_of(test::book().product_names());
  const std::string text = show_safety_sheet(sheet);
  const auto pages = pages_of(text);
  REQUIRE(pages.size() > 1);
  check_pages(text);
  check_nothing_is_left_out(sheet, text);
  for (const std::string& page : pages) {
    for (const Product* product : sheet.products) {
      CHECK_THAT(sample::unwrapped(page), Catch::Contains(product->title));
    }
  }
}

TEST_CASE("As many statements as one will are printed whole", "[report]") {
  SafetyTexts texts;
  std::vector<SafetyStatement>& many = texts.statements;
  for (int i = 0; i < 200; ++i) {
    many.push_back({"Statement number " + std::to_string(i) + "; keep it whole.",
                    i < 100 ? SafetySection::kFire : SafetySection::kAir,
                    {HazardClass::kAll},
                    "judgement",
                    "judgement"});
  }
  many.push_back({"Others come before this sheet.",
                  SafetySection::kEveryPage,
                  {HazardClass::kAll},
                  "judgement",
                  "judgement"});
  const SafetySheet sheet = make_safety_sheet({&test::product("water-stain")}, texts);
  const std::string text = show_safety_sheet(sheet);
  check_pages(text);
  check_nothing_is_left_out(sheet, text);
  // 66 lines less title, rule, product, blank line, rule and foot are 60: 200 need four pages.
  CHECK(pages_of(text).size() == 4);
  for (const std::string& page : pages_of(text)) {
    CHECK((page.find("\nFIRE") != std::string::npos || page.find("\nAIR") != std::string::npos));
  }
}

TEST_CASE("The most products that are allowed still leave room for the statements", "[report]") {
  std::vector<Product> products;
  for (std::size_t i = 0; i < kMostSheetProducts; ++i) {
    products.push_back(test::bare_product("finish-with-quite-a-long-name-" + std::to_string(i),
                                          i % 2 == 0 ? "water" : "none"));
    products.back().hazards.rags_self_heat = i % 3 == 0;
    products.back().hazards.flammable = i % 4 == 0;
  }
  std::vector<const Product*> pointers;
  for (const Product& product : products) {
    pointers.push_back(&product);
  }
  const SafetySheet sheet = make_safety_sheet(pointers, test::texts());
  const std::string text = show_safety_sheet(sheet);
  check_pages(text);
  check_nothing_is_left_out(sheet, text);
}

TEST_CASE("Rags stand at the top of an oil's sheet, under the products", "[report]") {
  const auto lines = sample::lines_of(show_safety_sheet(sheet_of({"boiled-linseed-oil"})));
  REQUIRE(lines.size() > 5);
  CHECK(lines[2] == "FOR         Boiled linseed oil.");
  CHECK_THAT(lines[4], Catch::StartsWith("FIRST       - OILY RAGS CATCH FIRE"));
}

TEST_CASE("Statements that are not for all products end in their numbers", "[report]") {
  const std::string text =
      sample::unwrapped(show_safety_sheet(sheet_of({"waterborne-clear", "hardwax-oil"})));
  CHECK_THAT(text, Catch::Contains("1 Waterborne clear finish; 2 Hardwax oil."));
  CHECK_THAT(text, Catch::Contains("hang up singly outdoors to dry before washing. [2]"));
  CHECK_THAT(text, Catch::Contains("a particle filter (P95 or P100) goes before it. [1]"));
  CHECK_THAT(text, Catch::Contains("eye wash near. DUST"));  // for both
}

TEST_CASE("The explanation gives every statement its source and how it is known", "[report]") {
  const SafetySheet sheet = sheet_of({"nitrocellulose-lacquer-spray", "oil-wiping-stain"});
  const std::string text = explain_safety_sheet(sheet);
  check_pages(text);
  const std::string words = body_words(text);
  std::size_t statements = 0;
  for (const SheetSection& section : sheet.sections) {
    for (const SheetStatement& entry : section.statements) {
      CAPTURE(entry.statement->text);
      CHECK(sample::times_in(words, "- " + entry.statement->text) == 1);
      CHECK_THAT(
          words,
          Catch::Contains("[" + entry.statement->source + "], " + entry.statement->how + "; said"));
      ++statements;
    }
  }
  CHECK(sample::times_in(words, "; said of: ") == statements);
}

TEST_CASE("The sheet as JSON carries products, hazards and sources", "[report]") {
  const SafetySheet sheet = sheet_of({"boiled-linseed-oil", "waterborne-clear"});
  const auto whole = nlohmann::json::parse(safety_sheet_as_json(sheet));
  CHECK(whole["products"][0]["hazards"] == nlohmann::json({"rags-self-heat", "unthinned-oil"}));
  CHECK(whole["products"][1]["hazards"] == nlohmann::json({"sprayed-mist", "waterborne"}));
  REQUIRE(whole["sections"].size() == sheet.sections.size());
  const auto& rags = whole["sections"][0];
  CHECK(rags["section"] == "rags");
  for (const auto& statement : rags["statements"]) {
    CHECK(statement["products"] == nlohmann::json({"boiled-linseed-oil"}));
    CHECK(statement["applies_to"] == nlohmann::json({"rags-self-heat"}));
    CHECK_FALSE(statement["source"].get<std::string>().empty());
    CHECK_FALSE(statement["how"].get<std::string>().empty());
  }
}
