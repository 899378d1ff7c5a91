// What every product must say of its hazards, against what is known of its chemistry.
#include <algorithm>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "recipe/recipe_book.h"

namespace coatwright {
namespace {

const Product& product(const RecipeBook& book, const std::string& name) {
  const Result<const Product*> found = book.product(name);
  if (!found) {
    FAIL(found.error().message);
  }
  return **found;
}

bool cautions_name(const Product& one, const std::string& words) {
  const auto& cautions = one.hazards.cautions;
  return std::any_of(cautions.begin(), cautions.end(), [&words](const std::string& text) {
    return text.find(words) != std::string::npos;
  });
}

bool is_put_on_by(const Product& one, Method method) {
  return std::find(one.methods.begin(), one.methods.end(), method) != one.methods.end();
}

/// Whether any phase of any stage runs by the mechanism.
bool runs_by(const Product& one, Mechanism mechanism) {
  return std::any_of(one.stages.begin(), one.stages.end(), [mechanism](const auto& stage) {
    const auto& phases = stage.second.timing.phases;
    return std::any_of(phases.begin(), phases.end(), [mechanism](const Phase& phase) {
      return phase.law.mechanism == mechanism;
    });
  });
}

}  // namespace

TEST_CASE("Products on the fire departments' list are known to heat up", "[recipe]") {
  const RecipeBook book;
  // EVIDENCE: nfpa_tips_rags oil paints, oil stains, linseed and tung oil, varnishes, oil
  // polyurethane. Hardwax oils, blends, fillers and alkyd hybrids as holding drying oil: from
  // memory
  for (const auto* name : {"oil-wiping-stain",
                           "gel-stain",
                           "boiled-linseed-oil",
                           "raw-linseed-oil",
                           "tung-oil",
                           "oil-varnish-blend",
                           "oil-modified-varnish",
                           "rubbing-varnish",
                           "interior-alkyd-varnish",
                           "wiping-varnish",
                           "hardwax-oil",
                           "alkyd-enamel",
                           "waterborne-enamel",
                           "oil-grain-filler"}) {
    INFO(name);
    CHECK(product(book, name).hazards.rags_self_heat);
  }
}

TEST_CASE("Whatever cures by oxygen heats up in rags, and nothing else is said to", "[recipe]") {
  const RecipeBook book;
  for (const std::string& name : book.product_names()) {
    INFO(name);
    const Product& one = product(book, name);
    // EVIDENCE: nfpa_tips_rags the oil heats up as it takes up oxygen, the solvent does not
    CHECK(one.hazards.rags_self_heat == one.oxidises);
    CHECK((one.oxidises || !runs_by(one, Mechanism::kOxidation)));
    if (one.hazards.rags_self_heat) {
      CHECK(cautions_name(one, "water-filled closed metal container"));
      CHECK(cautions_name(one, "Never heaped, bagged or in a bin."));
    }
  }
}

TEST_CASE("Urethane hardeners are known as isocyanates, and nothing else", "[recipe]") {
  const RecipeBook book;
  for (const std::string& name : book.product_names()) {
    INFO(name);
    const Product& one = product(book, name);
    // EVIDENCE: isocyanate_health they sensitise for good and give no warning; supplied air to
    // spray
    const bool expected = name == "two-part-polyurethane" || name == "moisture-cure-polyurethane";
    CHECK(one.hazards.isocyanates == expected);
    CHECK((expected || !runs_by(one, Mechanism::kMoistureCure)));
    if (expected) {
      CHECK(cautions_name(one, "sensitise for good"));
      CHECK(cautions_name(one, "supplied air"));
      CHECK(cautions_name(one, "never shut them tight"));
    }
  }
}

TEST_CASE("Whatever an acid cures gives off formaldehyde", "[recipe]") {
  const RecipeBook book;
  for (const std::string& name : book.product_names()) {
    INFO(name);
    const Product& one = product(book, name);
    // EVIDENCE: osha_1910_134 acid-catalysed finishes set formaldehyde free; an ordinary cartridge
    // for organic vapour does not do (from memory). Vinyl sealers: the catalysed kinds.
    CHECK((one.hazards.formaldehyde || !runs_by(one, Mechanism::kAcidCure)));
    if (one.hazards.formaldehyde) {
      CHECK(cautions_name(one, "formaldehyde"));
      CHECK(cautions_name(one, "organic vapour alone"));
    }
  }
  CHECK(product(book, "conversion-varnish").hazards.formaldehyde);
  CHECK(product(book, "precatalysed-lacquer").hazards.formaldehyde);
}

TEST_CASE("Nitrocellulose is said of every lacquer that is made with it", "[recipe]") {
  const RecipeBook book;
  for (const std::string& name : book.product_names()) {
    INFO(name);
    const Product& one = product(book, name);
    const bool expected = one.layer == "nitrocellulose-lacquer" ||
                          one.layer == "nitrocellulose-sealer" ||
                          one.layer == "precatalysed-lacquer" || one.layer == "vinyl-sealer";
    CHECK(one.hazards.nitrocellulose == expected);
    // EVIDENCE: osha_1910_107 dry residue kept wet and cleared away; not one booth for both
    if (one.hazards.nitrocellulose) {
      CHECK(cautions_name(one, "burn violently"));
    }
    if (one.hazards.nitrocellulose && one.hazards.sprayed_mist) {
      CHECK(cautions_name(one, "Never spray oil finishes in the same booth"));
    }
  }
}

TEST_CASE("Mist, flame and hardener follow from method, carrier and mix", "[recipe]") {
  const RecipeBook book;  // consistency check
  for (const std::string& name : book.product_names()) {
    INFO(name);
    const Product& one = product(book, name);
    CHECK(one.hazards.sprayed_mist == is_put_on_by(one, Method::kSpray));
    CHECK(one.hazards.catalysed == one.mix.has_value());
    CHECK(one.hazards.flammable == (one.carrier != "water" && one.carrier != "none"));
    CHECK((!one.hazards.flammable || cautions_name(one, "no flame, pilot light, heater")));
    CHECK(((one.mix && one.mix->pot_life) || !runs_by(one, Mechanism::kTwoPart)));
  }
}

TEST_CASE("An old finish carries the caution about lead", "[recipe]") {
  const RecipeBook book;
  // EVIDENCE: common-practice lead test before old paint of before 1978 is sanded, scraped or burnt
  const Product& one = product(book, "old-finish");
  CHECK(cautions_name(one, "lead test"));
  CHECK(cautions_name(one, "1978"));
  REQUIRE(one.recoat.size() == 1);
  CHECK(one.recoat.front().condition == RecoatCondition::kNever);
}

TEST_CASE("No product is called safe", "[recipe]") {
  const RecipeBook book;
  for (const std::string& name : book.product_names()) {
    const Product& one = product(book, name);
    for (const std::string& caution : one.hazards.cautions) {
      CAPTURE(name, caution);
      for (const auto* word : {"safe", "harmless", "no danger", "non-toxic", "food"}) {
        CHECK(caution.find(word) == std::string::npos);
      }
    }
  }
}

}  // namespace coatwright
