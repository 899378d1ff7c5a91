#include "recipe/defect_words.h"

#include <set>
#include <string>

#include <catch2/catch.hpp>

#include "base/loose_match.h"
#include "recipe/recipe_book.h"

using namespace coatwright;

TEST_CASE("The defects that makers speak of have words", "[recipe]") {
  // Names of the trade, common practice.
  for (const char* word : {"blush",
                           "runs",
                           "lifting",
                           "print",
                           "fisheye",
                           "tacky",
                           "wrinkling",
                           "peeling",
                           "pinholes",
                           "dust",
                           "cracking",
                           "orange-peel",
                           "blotching",
                           "bleed-back",
                           "crazing",
                           "witness-lines"}) {
    INFO(word);
    const auto defect = defect_named(word);
    REQUIRE(defect);
    CHECK(defect->word == word);
    CHECK_FALSE(defect->means.empty());
  }
}

TEST_CASE("No two defects can be meant by one word", "[recipe]") {
  for (const DefectWord& one : defect_words()) {
    int meant = 0;
    for (const DefectWord& other : defect_words()) {
      meant += matches_loosely(one.word, other.word) ? 1 : 0;
    }
    CHECK(meant == 1);
    CHECK_FALSE(matches_loosely(one.word, kGoodOutcome));
    CHECK(one.word.find(' ') == std::string_view::npos);  // typed without quotes
  }
}

TEST_CASE("A defect may be typed as the maker likes", "[recipe]") {
  CHECK(defect_named("Orange Peel")->word == "orange-peel");
  CHECK(outcome_named("ORANGEPEEL")->word == "orange-peel");
  CHECK(outcome_named("Good")->word == kGoodOutcome);
}

TEST_CASE("A word that is no defect is refused with those that are", "[recipe]") {
  CHECK_FALSE(defect_named(kGoodOutcome));
  for (const auto& none : {defect_named("ugly"), outcome_named("ugly"), outcome_named("")}) {
    REQUIRE_FALSE(none);
    CHECK(none.error().code == ErrorCode::kUsage);
    CHECK_THAT(none.error().text(), Catch::Contains("blush") && Catch::Contains("witness-lines"));
  }
  CHECK_THAT(outcome_named("ugly").error().text(), Catch::Contains("say good"));
}

TEST_CASE("Every defect that may be logged can be traced, and no other", "[recipe]") {
  const RecipeBook book;
  const auto defects = book.defects();
  REQUIRE(defects.has_value());
  std::set<std::string> traced;
  for (const Defect& defect : **defects) {
    traced.insert(defect.name);
  }
  std::set<std::string> logged;
  for (const DefectWord& word : defect_words()) {
    logged.insert(std::string(word.word));
  }
  CHECK(traced == logged);
}
