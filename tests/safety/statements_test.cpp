// The statements of the safety sheet against facts from outside the project, and against what must
// never be said.
#include <cmath>
#include <fstream>
#include <regex>
#include <sstream>

#include <catch2/catch.hpp>

#include "safety/safety_products.h"

using namespace coatwright;
using test::statements;

namespace {

constexpr double kMetresPerFoot = 0.3048;      // EVIDENCE: nist_sp811 exact
constexpr double kLitresPerGallon = 3.785412;  // EVIDENCE: nist_sp811

/// What no statement may claim: that something is without danger, or when a danger ends.
const std::vector<std::string>& forbidden() {
  static const std::vector<std::string> kForbidden = {
      R"(\b(un)?safe(r|st|ly)?\b)",
      R"(\bharmless\b)",
      R"(\bsecure(ly)?\b)",
      R"(\b(no|without|any) (danger|risk|hazard)\b)",
      R"(\bnon-?toxic\b)",
      R"(\bfood[- ](grade|contact)\b)",
      R"(\brisk-free\b)",
      R"(\bmay (re-?enter|go back|return|be left|be thrown)\b)",
      R"(\bcan(not| no longer) (ignite|burn|heat|harm)\b)",
      R"(\b(is|are) (enough|sufficient|protected)\b)",
      R"([0-9] ?(h|hr|hrs|hours?|min|minutes?)\b)",
      R"(\b(one|two|three|eight|twelve|twenty-four|a few) (hours?|minutes?)\b)",
      R"(\bovernight (is|dries|will)\b)",
      R"(\bonce (dry|cured|stiff|hard)\b)",
  };
  return kForbidden;
}

/// The forbidden passage in a text, or "".
std::string forbidden_in(const std::string& text) {
  for (const std::string& pattern : forbidden()) {
    std::smatch match;
    if (std::regex_search(
            text, match, std::regex(pattern, std::regex::ECMAScript | std::regex::icase))) {
      return match.str();
    }
  }
  return "";
}

/// The one statement of a section that holds some words.
const SafetyStatement& statement(SafetySection section, const std::string& words) {
  const SafetyStatement* found = nullptr;
  for (const SafetyStatement& each : statements()) {
    if (each.section == section && each.text.find(words) != std::string::npos) {
      REQUIRE(found == nullptr);
      found = &each;
    }
  }
  if (found == nullptr) {
    FAIL("no statement of " << name_of(section) << " holds '" << words << "'");
  }
  return *found;
}

void check_words(const SafetyStatement& said, const std::vector<std::string>& words) {
  for (const std::string& word : words) {
    CAPTURE(said.text);
    CHECK_THAT(said.text, Catch::Contains(word));
  }
}

/// The rules' table that may lie beside the repository; its cells may be quoted.
std::string rules_table() {
  std::ifstream file(COATWRIGHT_SOURCE_DIR "/../shared/references/safety_1_rules.csv");
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

/// The cells of one line, where a quoted cell may hold commas.
std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells(1);
  bool quoted = false;
  for (const char c : line) {
    if (c == '"') {
      quoted = !quoted;
    } else if (c == ',' && !quoted) {
      cells.emplace_back();
    } else {
      cells.back() += c;
    }
  }
  return cells;
}

/// Value and unit of the rule whose words and detail hold the given passage.
std::pair<double, std::string> rule(const std::string& table, const std::string& passage) {
  std::istringstream lines(table);
  for (std::string line; std::getline(lines, line);) {
    const auto cells = cells_of(line);
    if (cells.size() > 4 && cells[1].find(passage) != std::string::npos) {
      return {std::stod(cells[2]), cells[3]};
    }
  }
  FAIL("no rule holds '" << passage << "'");
  return {};
}

}  // namespace

TEST_CASE("A claim that something is without danger is noticed", "[safety]") {
  for (const auto* text : {"Such a rag is safe.",
                           "It is safe to enter.",
                           "Food-safe.",
                           "no risk",
                           "after 24 hours",
                           "once dry, bin them",
                           "You may re-enter then"}) {
    CAPTURE(text);
    CHECK_FALSE(forbidden_in(text).empty());
  }
  CHECK(forbidden_in("Safety sheet: keep 20 ft (6 m) away").empty());
}

TEST_CASE("No statement says that something is without danger or when a danger ends", "[safety]") {
  for (const SafetyStatement& each : statements()) {
    CAPTURE(each.text);
    CHECK(forbidden_in(each.text).empty());
  }
}

TEST_CASE("Every statement's source is in the list of references", "[safety]") {
  std::ifstream file(COATWRIGHT_SOURCE_DIR "/docs/references.bib");
  std::ostringstream text;
  text << file.rdbuf();
  for (const SafetyStatement& each : statements()) {
    CAPTURE(each.text, each.source);
    CHECK(text.str().find("{" + each.source + ",\n") != std::string::npos);
  }
}

TEST_CASE("What is graded as read names a source that can be read", "[safety]") {
  for (const SafetyStatement& each : statements()) {
    CAPTURE(each.text, each.source);
    const bool is_grade = each.source == "judgement" || each.source == "common-practice" ||
                          each.source == "from-memory";
    CHECK((each.how != "read" || !is_grade));
    CHECK((each.source != "judgement" || each.how == "judgement"));
  }
}

TEST_CASE("Rags go into water in closed metal or into a listed can emptied daily", "[safety]") {
  // EVIDENCE: nfpa_tips_rags fire departments: metal container, full of water, closed
  check_words(statement(SafetySection::kRags, "A. Closed"),
              {"Closed metal container", "filled with water", "wholly under"});
  // EVIDENCE: osha_1910_107 (g)(3): metal waste cans, emptied at least daily or at each shift's end
  const SafetyStatement& can = statement(SafetySection::kRags, "B. Listed");
  check_words(can, {"Listed", "metal", "closing by itself", "emptied daily", "every shift"});
  CHECK(can.source == "osha_1910_107");
  // EVIDENCE: nfpa_tips_rags single layers, outdoors, weighed down, away from buildings
  check_words(statement(SafetySection::kRags, "C. Single"),
              {"Single layers", "flat", "outdoors", "weighed down", "away from buildings"});
  // EVIDENCE: nfpa_tips_rags no heap, bag, box, pocket or ordinary bin; rags in at once
  check_words(statement(SafetySection::kRags, "AT ONCE"),
              {"heap", "bag", "box", "pocket", "ordinary bin"});
}

TEST_CASE("Each way with rags says what makes it fail", "[safety]") {
  // EVIDENCE: nfpa_tips_rags rags that float, water that leaks; from memory: rags taken out again
  check_words(statement(SafetySection::kRags, "A. Closed"),
              {"Fails", "float", "leaks", "plastic", "taken out and heaped"});
  // EVIDENCE: ifc2018 304.3.1; the rest of the list partly from memory
  check_words(statement(SafetySection::kRags, "B fails"),
              {"propped", "too full", "over night", "plastic liner", "nitrocellulose", "peroxide"});
  // EVIDENCE: nfpa_tips_rags folded, hung over plastic, under a deck, gathered early, left alone
  check_words(statement(SafetySection::kRags, "C. Single"),
              {"Fails", "folded", "overlapping", "plastic", "under a deck", "gathered before"});
}

TEST_CASE("Dust and steel wool with oil are rags too", "[safety]") {
  // EVIDENCE: nfpa_tips_rags a fire department: bags caught fire with stain up to 30 days old
  check_words(statement(SafetySection::kRags, "Sanding dust"),
              {"sander bags", "filters", "steel wool", "30 days", "metal", "water"});
}

TEST_CASE("Distances are those of the rules", "[safety]") {
  // EVIDENCE: osha_1910_107 (c)(2): 20 ft from spraying unless partitioned
  check_words(statement(SafetySection::kFire, "Before the can"), {"20 ft (6 m)", "walled off"});
  CHECK(std::lround(20 * kMetresPerFoot) == 6);
  // EVIDENCE: ifc2018 305.2: 10 ft from combustibles, 2 ft from openings
  check_words(statement(SafetySection::kRags, "10 ft"), {"10 ft (3 m)", "2 ft (0.6 m)"});
  CHECK(std::lround(10 * kMetresPerFoot) == 3);
  CHECK(2 * kMetresPerFoot == Approx(0.6).margin(0.05));
  // EVIDENCE: ifc2018 table 906.3(2): 40-B within 30 ft
  check_words(statement(SafetySection::kFire, "40-B"), {"30 ft (9 m)"});
  CHECK(std::lround(30 * kMetresPerFoot) == 9);
}

TEST_CASE("Amounts in store are those of the rules", "[safety]") {
  // EVIDENCE: ifc2018 5704.3.4.4: above 10 gal a cabinet
  check_words(statement(SafetySection::kStorage, "10 gal"), {"(38 L)", "cabinet"});
  CHECK(std::lround(10 * kLitresPerGallon) == 38);
  // EVIDENCE: osha_1910_106 (d)(3)(i): 60 gal of category 1 to 3 in a cabinet
  check_words(statement(SafetySection::kStorage, "60 gal"), {"(227 L)", "category 1 to 3"});
  CHECK(std::lround(60 * kLitresPerGallon) == 227);
  // EVIDENCE: osha_1910_107 (e)(2): ordinarily one day's or shift's supply; closed, no glass
  check_words(statement(SafetySection::kStorage, "Near spraying"),
              {"one day's or shift's", "closed", "glass"});
}

TEST_CASE("What ignites vapour is named thing by thing", "[safety]") {
  // Common practice, with osha_1910_107 for flames and sparks.
  check_words(statement(SafetySection::kFire, "Before the can"),
              {"flames", "pilot lights", "heaters", "smoking"});
  check_words(statement(SafetySection::kFire, "do not switch"),
              {"motors", "fans", "switches", "phones", "vacuum cleaners"});
  check_words(statement(SafetySection::kFire, "Static"), {"bond and ground"});
}

TEST_CASE("Nitrocellulose and oil never share waste or booth", "[safety]") {
  // EVIDENCE: osha_1910_107 (g)(7): no alternating use unless all deposits are removed
  // EVIDENCE: ifc2018 2404.7.8.6: filters changed before lacquer over varnish or stain
  const SafetyStatement& said = statement(SafetySection::kNitrocellulose, "NEVER");
  check_words(said, {"oil", "varnish", "waste", "booth", "every deposit", "filters are new"});
  CHECK(said.applies_to == std::vector<HazardClass>{HazardClass::kNitrocellulose});
}

TEST_CASE("The figures are those of the rules' table", "[safety]") {
  const std::string table = rules_table();
  if (table.empty()) {
    WARN("skipped: the table safety_1_rules.csv does not lie beside the repository");
    return;
  }
  using Figure = std::pair<double, std::string>;
  CHECK(rule(table, "open flame / spark distance") == Figure{20, "ft"});
  CHECK(rule(table, "distance from combustibles") == Figure{10, "ft"});
  CHECK(rule(table, "approved metal waste can") == Figure{1, "per day"});
  CHECK(rule(table, "listed disposal container") == Figure{1, "per day"});
  CHECK(rule(table, "quantity near spraying") == Figure{1, "day or shift supply"});
  CHECK(rule(table, "one cabinet, Category 1+2+3") == Figure{60, "gal"});
  CHECK(rule(table, "maintenance/equipment liquids") == Figure{10, "gal"});
  CHECK(rule(table, "extra-hazard Class B") == Figure{40, "B rating"});
  CHECK_THAT(table, Catch::Contains("within 30 ft travel"));
  CHECK_THAT(table, Catch::Contains("2 ft from openings to buildings"));
}
