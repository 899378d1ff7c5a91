#include "recipe/safety_reader.h"

#include <catch2/catch.hpp>

#include "recipe/recipe_texts.h"

using namespace coatwright;
using test::check_refused;
using test::line_of;
using test::with;

namespace {

const std::string kStatements = R"(format = 1
[[statement]]
section = "rags"
applies_to = ["rags-self-heat", "nitrocellulose"]
text = "Into water."
source = "judgement"
how = "from memory"

[[statement]]
section = "every-page"
applies_to = ["all"]
text = "Label first."
source = "from-memory"
how = "read"
)";

Result<std::vector<SafetyStatement>> parse(const std::string& text) {
  return parse_safety_texts(text, "safety.toml").map([](const SafetyTexts& texts) {
    return texts.statements;
  });
}

}  // namespace

TEST_CASE("The statements of the safety sheet are read in their order", "[recipe]") {
  // Consistency check: the format is ours.
  const auto statements = parse(kStatements);
  REQUIRE(statements);
  REQUIRE(statements->size() == 2);
  const SafetyStatement& rags = statements->front();
  CHECK(rags.section == SafetySection::kRags);
  CHECK(rags.applies_to ==
        std::vector<HazardClass>{HazardClass::kRagsSelfHeat, HazardClass::kNitrocellulose});
  CHECK(rags.text == "Into water.");
  CHECK(rags.source == "judgement");
  CHECK(rags.how == "from memory");
  CHECK(statements->back().section == SafetySection::kEveryPage);
}

TEST_CASE("The headlines of the safety sheet are read in their order", "[recipe]") {
  // Consistency check: the format is ours.
  const auto texts = parse_safety_texts(std::string(kStatements) + R"(
[[headline]]
applies_to = ["flammable", "all"]
title = "FIRE"
text = "No flame."
source = "judgement"
how = "judgement"
)",
                                        "safety.toml");
  REQUIRE(texts);
  REQUIRE(texts->headlines.size() == 1);
  CHECK(texts->headlines.front().title == "FIRE");
  CHECK(texts->headlines.front().text == "No flame.");
  CHECK(texts->headlines.front().applies_to ==
        std::vector<HazardClass>{HazardClass::kFlammable, HazardClass::kAll});
}

TEST_CASE("Sections and classes of hazard have their names", "[recipe]") {
  // Consistency check: the names are those of the format page.
  CHECK(name_of(SafetySection::kRags) == "rags");
  CHECK(name_of(SafetySection::kGoneWrong) == "gone-wrong");
  CHECK(name_of(HazardClass::kUnthinnedOil) == "unthinned-oil");
  CHECK(name_of(HazardClass::kWaterborne) == "waterborne");
}

TEST_CASE("A wrong statement is refused with file, line, key and what is allowed", "[recipe]") {
  const std::string section = "section = \"rags\"";
  check_refused(parse(with(kStatements, section, "section = \"rug\"")),
                {"safety.toml",
                 line_of(kStatements, section),
                 "statement[1].section",
                 "rug",
                 "rags, fire",
                 "every-page"});
  check_refused(parse(with(kStatements, "\"nitrocellulose\"", "\"acid\"")),
                {"statement[1].applies_to", "acid", "catalysed"});
  check_refused(parse(with(kStatements, "[\"all\"]", "[]")), {"statement[2].applies_to"});
  check_refused(parse(with(kStatements, "how = \"read\"", "how = \"sure\"")),
                {line_of(kStatements, "how = \"read\""), "statement[2].how", "sure", "judgement"});
  check_refused(parse(with(kStatements, "source = \"from-memory\"\n", "")),
                {"statement[2].source"});
  check_refused(parse(with(kStatements, "\"Into water.\"", "\"\"")), {"statement[1].text"});
  check_refused(parse(with(kStatements, "\"Into water.\"", "7")), {"statement[1].text", "7"});
  check_refused(parse(with(kStatements, "how = \"read\"", "how = \"read\"\nwhen = \"now\"")),
                {"statement[2].when"});
}

TEST_CASE("A statement that stands twice and a file without any are refused", "[recipe]") {
  check_refused(parse(with(kStatements, "Label first.", "Into water.")),
                {"statement[2].text", "Into water."});
  check_refused(parse("format = 1\n"), {"statement"});
  check_refused(parse(with(kStatements, "format = 1", "format = 2")), {"format"});
}
