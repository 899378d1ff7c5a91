#include "recipe/aftercare_reader.h"

#include <algorithm>
#include <regex>
#include <set>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "recipe/recipe_book.h"
#include "recipe/recipe_texts.h"

using namespace coatwright;
using test::check_refused;
using test::line_of;
using test::with;

namespace {

const std::string kItems = R"(format = 1
[[aftercare]]
section = "keep-off"
layers = ["paste-wax", "hardwax-oil"]
text = "No spirits."
source = "judgement"
how = "from memory"

[[aftercare]]
section = "food"
text = "Ask the maker."
source = "from-memory"
how = "read"
)";

Result<Aftercare> parse(const std::string& text) {
  return parse_aftercare(text, "aftercare.toml");
}

const RecipeBook& book() {
  static const RecipeBook kBook;
  return kBook;
}

const Aftercare& items() {
  const auto all = book().aftercare();
  REQUIRE(all);
  return **all;
}

const Product& product(const std::string& name) {
  const auto found = book().product(name);
  REQUIRE(found);
  return **found;
}

/// Whether a product is made to lie on top.
bool is_top_coat(const Product& one) {
  return one.kind == ProductKind::kClearFilm || one.kind == ProductKind::kEnamel ||
         one.kind == ProductKind::kOil || one.kind == ProductKind::kWax;
}

/// The layers that can lie on top: of each such product, and of each schedule's last coat.
std::set<std::string> top_layers() {
  std::set<std::string> layers;
  for (const std::string& name : book().product_names()) {
    if (is_top_coat(product(name))) {
      layers.insert(product(name).layer);
    }
  }
  for (const std::string& name : book().schedule_names()) {
    const auto schedule = book().schedule(name);
    REQUIRE(schedule);
    std::string last;
    for (const ScheduleStep& step : (*schedule)->steps) {
      last = step.kind == ScheduleStepKind::kCoat ? step.product : last;
    }
    layers.insert(product(last).layer);
  }
  return layers;
}

bool names(const AftercareItem& item, const std::string& layer) {
  return !item.layers.empty() && item.is_of(layer);
}

bool says(AftercareSection section, const std::string& layer) {
  return std::any_of(items().begin(), items().end(), [&](const AftercareItem& item) {
    return item.section == section && (layer.empty() ? item.layers.empty() : names(item, layer));
  });
}

}  // namespace

TEST_CASE("What the receiver is told is read in its order", "[recipe]") {
  // Consistency check: the format is ours.
  const auto read = parse(kItems);
  REQUIRE(read);
  REQUIRE(read->size() == 2);
  const AftercareItem& wax = read->front();
  CHECK(wax.section == AftercareSection::kKeepOff);
  CHECK(wax.text == "No spirits.");
  CHECK(wax.source == "judgement");
  CHECK(wax.how == "from memory");
  CHECK(wax.is_of("hardwax-oil"));
  CHECK_FALSE(wax.is_of("oil-varnish"));
  CHECK(read->back().is_of("oil-varnish"));
  CHECK(name_of(AftercareSection::kKeepOffAtFirst) == "keep-off-at-first");
  CHECK(name_of(AftercareSection::kFood) == "food");
}

TEST_CASE("A wrong item of aftercare is refused with file, line, key and what is allowed",
          "[recipe]") {
  const std::string section = "section = \"keep-off\"";
  check_refused(parse(with(kItems, section, "section = \"keep\"")),
                {"aftercare.toml",
                 line_of(kItems, section),
                 "aftercare[1].section",
                 "keep",
                 "light-use",
                 "rags"});
  check_refused(parse(with(kItems, "[\"paste-wax\", \"hardwax-oil\"]", "[]")),
                {"aftercare[1].layers"});
  check_refused(parse(with(kItems, "how = \"read\"", "how = \"sure\"")),
                {"aftercare[2].how", "sure", "judgement"});
  check_refused(parse(with(kItems, "source = \"from-memory\"\n", "")), {"aftercare[2].source"});
  check_refused(parse(with(kItems, "\"Ask the maker.\"", "\"\"")), {"aftercare[2].text"});
  check_refused(parse(with(kItems, "\"Ask the maker.\"", "\"No spirits.\"")),
                {"aftercare[2].text", "each text once in the file"});
  check_refused(parse(with(kItems, "how = \"read\"", "how = \"read\"\nuntil = \"now\"")),
                {"aftercare[2].until"});
}

TEST_CASE("Every layer that can lie on top has its own care", "[recipe]") {
  // Consistency check: the recipes against each other.
  const auto layers = top_layers();
  CHECK(layers.size() >= 15);
  for (const std::string& layer : layers) {
    INFO(layer);
    for (const AftercareSection section : {AftercareSection::kKeepOff,
                                           AftercareSection::kClean,
                                           AftercareSection::kWater,
                                           AftercareSection::kHeat,
                                           AftercareSection::kMarks,
                                           AftercareSection::kRenew}) {
      INFO(name_of(section));
      CHECK(says(section, layer));
    }
  }
  for (const AftercareSection section : {AftercareSection::kLightUse,
                                         AftercareSection::kFullUse,
                                         AftercareSection::kKeepOffAtFirst,
                                         AftercareSection::kKeepOff,
                                         AftercareSection::kFood}) {
    INFO(name_of(section));
    CHECK(says(section, ""));
  }
}

TEST_CASE("No item of aftercare names a layer that there is none of", "[recipe]") {
  // Consistency check: the recipes against each other.
  std::set<std::string> known;
  for (const std::string& name : book().product_names()) {
    known.insert(product(name).layer);
  }
  for (const AftercareItem& item : items()) {
    INFO(item.text);
    for (const std::string& layer : item.layers) {
      CHECK(known.contains(layer));
    }
  }
}

TEST_CASE("Whoever renews a finish that heats up in rags is told", "[recipe]") {
  // EVIDENCE: nfpa_tips_rags what to do with such rags; which products is the recipes' own.
  for (const std::string& name : book().product_names()) {
    const Product& one = product(name);
    if (is_top_coat(one) && one.hazards.rags_self_heat) {
      INFO(name);
      CHECK(says(AftercareSection::kRags, one.layer));
    }
  }
  for (const AftercareItem& item : items()) {
    if (item.section == AftercareSection::kRags) {
      for (const auto* word : {"heat up by themselves", "metal container", "water", "heap"}) {
        CHECK_THAT(item.text, Catch::Contains(word));
      }
    }
  }
}

TEST_CASE("The card says of food only what the maker of the finish may state", "[recipe]") {
  // EVIDENCE: cfr_21_175_300 it approves no product and names no time of cure.
  std::vector<std::string> said;
  for (const AftercareItem& item : items()) {
    const bool of_food =
        std::regex_search(item.text, std::regex("food|eat|toy", std::regex::icase));
    CHECK((!of_food || item.section == AftercareSection::kFood ||
           item.text.find("heat") != std::string::npos));
    if (item.section == AftercareSection::kFood) {
      said.push_back(item.text);
    }
  }
  CHECK(said == std::vector<std::string>{"For food contact only where the maker of the finish "
                                         "states it, after full cure."});
}

TEST_CASE("No item of aftercare calls anything safe or says when a danger ends", "[recipe]") {
  const std::regex forbidden(
      R"(\b(un)?safe(r|st|ly|ty)?\b|\bharmless\b|\bnon-?toxic\b|\b(no|without) (danger|risk)\b)"
      R"(|[0-9] ?(h|hours?|min|minutes?)\b|\bonce (dry|cured|hard)\b)",
      std::regex::icase);
  CHECK(std::regex_search(std::string("food-safe"), forbidden));
  CHECK(std::regex_search(std::string("after 24 hours"), forbidden));
  for (const AftercareItem& item : items()) {
    INFO(item.text);
    CHECK_FALSE(std::regex_search(item.text, forbidden));
  }
}
