#include "recipe/defects_reader.h"

#include <algorithm>
#include <map>
#include <regex>
#include <set>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "recipe/recipe_book.h"
#include "recipe/recipe_texts.h"
#include "recipe/reference_table.h"

using namespace coatwright;
using test::check_refused;
using test::line_of;
using test::with;

namespace {

const std::string kDefects = R"(format = 1

[[defect]]
name = "ring-marks"
title = "ring marks"
kinds = ["clear-film", "oil"]
cause = "wet cups"
threshold = "any"
remedy = "alcohol"
prevention = "coasters"
source = "judgement"
how = "read"

[[defect.trigger]]
sign = "coat-early"
because = "it was soft"
prevention = "wait"

[[defect.trigger]]
sign = "humid-air"
because = "it was damp"
prevention = "dry the air"
source = "from-memory"
how = "from memory"

[[defect]]
name = "moth"
title = "moth"
layers = ["paste-wax"]
cause = "moths"
threshold = "any"
remedy = "none"
prevention = "none"
source = "judgement"
how = "judgement"
)";

Result<Defects> read(const std::string& text) {
  return parse_defects(text, "defects.toml");
}

const RecipeBook& book() {
  static const RecipeBook built_in;
  return built_in;
}

/// Our words for the rows of the table; one row is two defects here.
const std::map<std::string, std::vector<std::string>>& words_of_table() {
  static const std::map<std::string, std::vector<std::string>> kWords = {
      {"blushing (white haze)", {"blush"}},
      {"fisheye (craters)", {"fisheye"}},
      {"orange peel", {"orange-peel"}},
      {"runs and sags", {"runs"}},
      {"pinholes", {"pinholes"}},
      {"solvent pop (bubbles)", {"bubbles"}},
      {"dry spray (rough dust)", {"dry-spray"}},
      {"wrinkling / lifting", {"wrinkling", "lifting"}},
      {"blotching", {"blotching"}},
      {"bleed-back (oil from pores)", {"bleed-back"}},
      {"printing (press marks)", {"print"}},
      {"cold check (cracks across grain)", {"cold-check"}},
      {"cracks along the grain", {"cracking"}},
      {"crazing / spider cracks", {"crazing"}},
      {"acid bloom (hazy, greasy, returns)", {"bloom"}},
      {"cloudy film (trapped moisture)", {"cloudy"}},
      {"ambering / yellowing", {"yellowing"}},
      {"poor adhesion between coats", {"peeling"}},
      {"poor adhesion to bare wood", {"flaking"}},
      {"tacky oil or varnish", {"tacky"}},
      {"iron-tannate black spots", {"black-spots"}},
      {"tannin / extractive bleed", {"tannin-bleed"}},
      {"raised grain", {"raised-grain"}},
      {"witness lines after rubbing", {"witness-lines"}},
  };
  return kWords;
}

/// What the table's words for the timing ask a log for; "first coat", "age" and "over-dosed" do not
/// say when.
const std::map<std::string, std::set<FaultSign>>& signs_of_timing() {
  static const std::map<std::string, std::set<FaultSign>> kSigns = {
      {"too humid", {FaultSign::kHumidAir, FaultSign::kNearDewPoint}},
      {"early recoat", {FaultSign::kCoatEarly}},
      {"too-late recoat", {FaultSign::kCoatLate, FaultSign::kNotAbraded}},
      {"thick coat", {FaultSign::kThickFilm}},
      {"wiped too late", {FaultSign::kWipedLate}},
      {"used too early", {FaultSign::kEarlyUse}},
      {"incompatible layers", {FaultSign::kForbiddenPair}},
  };
  return kSigns;
}

bool has_sign(const Defect& defect, FaultSign sign) {
  return std::any_of(defect.triggers.begin(), defect.triggers.end(), [sign](const auto& trigger) {
    return trigger.sign == sign;
  });
}

const Defect& defect(const std::string& name) {
  const auto found = book().defect(name);
  REQUIRE(found);
  return **found;
}

std::set<std::string> numbers_in(const std::string& text) {
  static const std::regex kNumber("\\bP?([0-9]+)\\b");
  std::set<std::string> numbers;
  for (std::sregex_iterator one(text.begin(), text.end(), kNumber), end; one != end; ++one) {
    numbers.insert((*one)[1].str());
  }
  return numbers;
}

/// All that we say of a defect.
std::string whole_text(const Defect& defect) {
  std::string text =
      defect.cause + " " + defect.threshold + " " + defect.remedy + " " + defect.prevention;
  for (const DefectTrigger& trigger : defect.triggers) {
    text += " " + trigger.because + " " + trigger.prevention;
  }
  return text;
}

}  // namespace

TEST_CASE("Defects are read in their order, with the signs that a log can show", "[recipe]") {
  // Consistency check: the format is ours.
  const auto defects = read(kDefects);
  REQUIRE(defects);
  REQUIRE(defects->size() == 2);
  const Defect& rings = defects->front();
  CHECK(rings.name == "ring-marks");
  CHECK(rings.kinds == std::vector<ProductKind>{ProductKind::kClearFilm, ProductKind::kOil});
  CHECK(rings.remedy == "alcohol");
  REQUIRE(rings.triggers.size() == 2);
  CHECK(rings.triggers[0].sign == FaultSign::kCoatEarly);
  CHECK(rings.triggers[0].source == "judgement");
  CHECK(rings.triggers[0].how == "read");
  CHECK(rings.triggers[1].source == "from-memory");
  CHECK(rings.triggers[1].how == "from memory");
  CHECK(name_of(rings.triggers[1].sign) == "humid-air");
  CHECK(defects->back().triggers.empty());
}

TEST_CASE("A defect befalls the layers or the kinds of products that it names", "[recipe]") {
  const auto defects = read(kDefects);  // consistency check
  REQUIRE(defects);
  Product oil;
  oil.kind = ProductKind::kOil;
  oil.layer = "drying-oil";
  Product wax;
  wax.kind = ProductKind::kWax;
  wax.layer = "paste-wax";
  CHECK(defects->front().befalls(oil));
  CHECK_FALSE(defects->front().befalls(wax));
  CHECK(defects->back().befalls(wax));
  CHECK_FALSE(defects->back().befalls(oil));
}

TEST_CASE("A wrong defect is refused with file, line, key and what is allowed", "[recipe]") {
  const std::string sign = "sign = \"humid-air\"";
  check_refused(read(with(kDefects, sign, "sign = \"full-moon\"")),
                {"defects.toml",
                 line_of(kDefects, sign),
                 "defect[1].trigger[2].sign",
                 "full-moon",
                 "coat-early",
                 "wet-wood"});
  check_refused(read(with(kDefects, sign, "sign = \"coat-early\"")),
                {"defect[1].trigger[2].sign", "once"});
  check_refused(read(with(kDefects, "name = \"moth\"", "name = \"ring-marks\"")),
                {"defect[2].name", "once"});
  check_refused(read(with(kDefects, "name = \"moth\"", "name = \"Moth\"")), {"defect[2].name"});
  check_refused(read(with(kDefects, "layers = [\"paste-wax\"]\n", "")),
                {"defect[2]", "layers or kinds"});
  check_refused(read(with(kDefects, "layers =", "kinds = [\"wax\"]\nlayers =")),
                {"defect[2]", "layers or kinds"});
  check_refused(read(with(kDefects, "\"oil\"]", "\"jam\"]")), {"defect[1].kinds", "jam", "sealer"});
  check_refused(read(with(kDefects, "remedy = \"alcohol\"\n", "")), {"defect[1].remedy"});
  check_refused(read(with(kDefects, "how = \"from memory\"\n", "")),
                {"defect[1].trigger[2]", "source and how"});
  check_refused(read(with(kDefects, "remedy = \"alcohol\"", "remedy = \"alcohol\"\nluck = 1")),
                {"defect[1].luck"});
}

TEST_CASE("An unknown defect is answered with all words, the nearest first", "[recipe]") {
  const auto found = book().defect("blussh");  // consistency check
  REQUIRE_FALSE(found);
  CHECK(found.error().code == ErrorCode::kNotFound);
  CHECK_THAT(found.error().message, Catch::Contains("the nearest name first: blush, "));
  CHECK_THAT(book().defect("fish").error().message, Catch::Contains("name first: fisheye, "));
  for (const Defect& one : **book().defects()) {
    CHECK_THAT(found.error().message, Catch::Contains(one.name));
  }
}

TEST_CASE("Every layer that a defect befalls is one of a product", "[recipe]") {
  std::set<std::string> layers;  // consistency check
  for (const std::string& name : book().product_names()) {
    layers.insert((*book().product(name))->layer);
  }
  for (const Defect& one : **book().defects()) {
    for (const std::string& layer : one.layers) {
      CAPTURE(one.name, layer);
      CHECK(layers.contains(layer));
    }
  }
}

TEST_CASE("Every defect of the table is there, with its figures and its grade", "[recipe]") {
  // EVIDENCE: trade_finishing_web the table of defects, from trade pages
  for (const auto& cells : test::table("surface_defects.csv")) {
    CAPTURE(cells.front());
    REQUIRE(words_of_table().contains(cells.front()));
    std::string said;
    for (const std::string& word : words_of_table().at(cells.front())) {
      said += whole_text(defect(word));
    }
    for (const std::string& number : numbers_in(cells[3] + " " + cells[5] + " " + cells[6])) {
      CAPTURE(number);
      CHECK(numbers_in(said).contains(number));
    }
    const bool read = cells[8].starts_with("read") && cells[8].find("rest M") == std::string::npos;
    CHECK(defect(words_of_table().at(cells.front()).front()).how ==
          (read ? "read" : "from memory"));
  }
}

TEST_CASE("What the table says of a defect's timing is looked for in a log", "[recipe]") {
  // EVIDENCE: trade_finishing_web the table of defects, from trade pages
  for (const auto& cells : test::table("surface_defects.csv")) {
    for (const auto& [words, signs] : signs_of_timing()) {
      if (cells[4].find(words) == std::string::npos) {
        continue;
      }
      for (const std::string& name : words_of_table().at(cells.front())) {
        CAPTURE(name, words);
        for (const FaultSign sign : signs) {
          CHECK(has_sign(defect(name), sign));
        }
      }
    }
  }
}
