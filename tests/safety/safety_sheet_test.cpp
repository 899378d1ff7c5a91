#include "safety/safety_sheet.h"

#include <map>

#include <catch2/catch.hpp>

#include "safety/safety_products.h"

using namespace coatwright;
using test::acid_cured;
using test::product;
using test::sections_of;
using test::sheet_of;
using test::statements;
using test::texts_of;
using test::two_part_urethane;
using S = SafetySection;
using H = HazardClass;

namespace {

/// What every product gets.
std::set<S> with_common(std::set<S> sections) {
  sections.insert({S::kFire,
                   S::kAir,
                   S::kLungs,
                   S::kSkin,
                   S::kEyes,
                   S::kDust,
                   S::kStorage,
                   S::kChildren,
                   S::kDisposal,
                   S::kGoneWrong,
                   S::kEveryPage});
  return sections;
}

/// The classes of each product, by what it is made of.
/// EVIDENCE: nfpa_tips_rags oil-based stains, oil varnishes, linseed and wiping blends heat up by
/// themselves; lacquer, shellac and waterborne acrylic do not by oxidation (the latter from
/// memory). EVIDENCE: osha_1910_107 nitrocellulose and the liquids with solvent are flammable.
const std::map<std::string, std::set<H>>& known_classes() {
  static const std::map<std::string, std::set<H>> kKnown = {
      {"boiled-linseed-oil", {H::kRagsSelfHeat, H::kUnthinnedOil}},
      {"dewaxed-shellac", {H::kFlammable}},
      {"hardwax-oil", {H::kRagsSelfHeat, H::kFlammable}},
      {"nitrocellulose-lacquer-spray", {H::kFlammable, H::kNitrocellulose, H::kSprayedMist}},
      {"nitrocellulose-sanding-sealer", {H::kFlammable, H::kNitrocellulose, H::kSprayedMist}},
      {"oil-modified-varnish", {H::kRagsSelfHeat, H::kFlammable}},
      {"oil-wiping-stain", {H::kRagsSelfHeat, H::kFlammable}},
      {"water-stain", {H::kWaterborne}},
      {"waterborne-clear", {H::kSprayedMist, H::kWaterborne}},
      {"wiping-varnish", {H::kRagsSelfHeat, H::kFlammable}},
  };
  return kKnown;
}

bool meets(const SafetyStatement& statement, const std::set<H>& classes) {
  return std::any_of(statement.applies_to.begin(), statement.applies_to.end(), [&](H hazard) {
    return hazard == H::kAll || classes.contains(hazard);
  });
}

}  // namespace

TEST_CASE("Every product belongs to the classes of hazard of its kind", "[safety]") {
  for (const auto& [name, classes] : known_classes()) {
    CAPTURE(name);
    const auto found = hazards_of(product(name));
    CHECK(std::set<H>(found.begin(), found.end()) == classes);
  }
}

TEST_CASE("Every statement stands on the sheets of the products it applies to and on no other",
          "[safety]") {
  for (const auto& [name, classes] : known_classes()) {
    const std::set<std::string> texts = texts_of(sheet_of({name}));
    for (const SafetyStatement& statement : statements()) {
      CAPTURE(name, statement.text);
      CHECK(texts.contains(statement.text) == meets(statement, classes));
    }
  }
}

TEST_CASE("Every statement can come to be said", "[safety]") {
  const Product urethane = two_part_urethane();
  const Product acid = acid_cured();
  std::set<std::string> said = texts_of(make_safety_sheet({&urethane, &acid}, test::texts()));
  for (const auto& [name, classes] : known_classes()) {
    said.merge(texts_of(sheet_of({name})));
  }
  CHECK(said.size() == statements().size());
}

TEST_CASE("The sheet of linseed oil begins with its rags", "[safety]") {
  const SafetySheet sheet = sheet_of({"boiled-linseed-oil"});
  REQUIRE_FALSE(sheet.sections.empty());
  CHECK(sheet.sections.front().section == S::kRags);
  CHECK(sections_of(sheet) == with_common({S::kRags}));
}

TEST_CASE("A waterborne sheet has no rags, but lungs and skin", "[safety]") {
  CHECK(sections_of(sheet_of({"waterborne-clear"})) == with_common({}));
  CHECK(sections_of(sheet_of({"water-stain"})) == with_common({}));
}

TEST_CASE("The sheet of nitrocellulose lacquer speaks of its residue and not of oily rags",
          "[safety]") {
  CHECK(sections_of(sheet_of({"nitrocellulose-lacquer-spray"})) ==
        with_common({S::kNitrocellulose}));
}

TEST_CASE("Rags come first as soon as one product of the job has oil", "[safety]") {
  const SafetySheet sheet =
      sheet_of({"nitrocellulose-lacquer-spray", "dewaxed-shellac", "oil-wiping-stain"});
  REQUIRE_FALSE(sheet.sections.empty());
  CHECK(sheet.sections.front().section == S::kRags);
  for (const SheetStatement& entry : sheet.sections.front().statements) {
    CHECK(entry.products == std::vector<std::size_t>{2});
  }
}

TEST_CASE("Isocyanates and catalysts are spoken of where they occur", "[safety]") {
  const Product urethane = two_part_urethane();
  const Product acid = acid_cured();
  CHECK(sections_of(make_safety_sheet({&urethane}, test::texts())) ==
        with_common({S::kIsocyanates, S::kCatalysts}));
  CHECK(sections_of(make_safety_sheet({&acid}, test::texts())) == with_common({S::kCatalysts}));
  const auto acid_only = texts_of(make_safety_sheet({&acid}, test::texts()));
  const auto urethane_only = texts_of(make_safety_sheet({&urethane}, test::texts()));
  const auto says_formaldehyde = [](const std::string& text) {
    return text.find("formaldehyde") != std::string::npos;
  };
  CHECK(std::any_of(acid_only.begin(), acid_only.end(), says_formaldehyde));
  CHECK(std::none_of(urethane_only.begin(), urethane_only.end(), says_formaldehyde));
}

TEST_CASE("A product named twice stands on the sheet once", "[safety]") {
  const SafetySheet sheet = sheet_of({"water-stain", "dewaxed-shellac", "water-stain"});
  REQUIRE(sheet.products.size() == 2);
  CHECK(sheet.products[1]->name == "dewaxed-shellac");
}

TEST_CASE("Sections stand in their order, none is empty", "[safety]") {
  const SafetySheet sheet = sheet_of({"nitrocellulose-lacquer-spray", "oil-wiping-stain"});
  for (std::size_t i = 0; i < sheet.sections.size(); ++i) {
    CHECK_FALSE(sheet.sections[i].statements.empty());
    CHECK((i == 0 || sheet.sections[i - 1].section < sheet.sections[i].section));
  }
}
