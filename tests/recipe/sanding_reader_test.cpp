#include "recipe/sanding_reader.h"

#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "recipe/recipe_book.h"
#include "recipe/recipe_texts.h"

using namespace coatwright;
using test::check_refused;
using test::with;
namespace fs = std::filesystem;

namespace {

const fs::path kRoot = COATWRIGHT_SOURCE_DIR;

std::string built_in_text() {
  std::ifstream stream(kRoot / "recipes/sanding.toml", std::ios::binary);
  REQUIRE(stream.is_open());
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

/// The fields of a line, of which some are quoted.
std::vector<std::string> fields_of(const std::string& line) {
  std::vector<std::string> fields(1);
  bool quoted = false;
  for (const char c : line) {
    if (c == '"') {
      quoted = !quoted;
    } else if (c == ',' && !quoted) {
      fields.emplace_back();
    } else if (c != '\r') {
      fields.back() += c;
    }
  }
  return fields;
}

const std::map<std::string, SandedWood> kWoods = {
    {"ring-porous", SandedWood::kRing},
    {"semi-ring-porous", SandedWood::kSemiRing},
    {"diffuse-porous", SandedWood::kDiffuse},
    {"diffuse-porous blotch-prone", SandedWood::kDiffuseBlotching},
    {"softwood", SandedWood::kSoftwood}};

const std::map<std::string, std::string> kLayers = {{"oil_stain", "oil-stain"},
                                                    {"gel_stain", "gel-stain"},
                                                    {"water_stain", "water-stain"},
                                                    {"dye_stain", "dye-stain"},
                                                    {"drying_oil", "drying-oil"},
                                                    {"oil_varnish_blend", "oil-varnish-blend"},
                                                    {"hardwax_oil", "hardwax-oil"},
                                                    {"dewaxed_shellac", "dewaxed-shellac"},
                                                    {"nc_lacquer", "nitrocellulose-lacquer"},
                                                    {"precat_lacquer", "precatalysed-lacquer"},
                                                    {"conversion_varnish", "conversion-varnish"},
                                                    {"waterborne_clear", "waterborne-clear"},
                                                    {"oil_poly_varnish", "oil-varnish"},
                                                    {"wiping_varnish", "wiping-varnish"},
                                                    {"pu_2k", "two-part-polyurethane"},
                                                    {"alkyd_enamel", "alkyd-enamel"},
                                                    {"waterborne_enamel", "waterborne-enamel"},
                                                    {"oil_filler", "oil-grain-filler"},
                                                    {"water_filler", "water-grain-filler"},
                                                    {"epoxy_seal", "epoxy-sealer"}};

}  // namespace

TEST_CASE("The last grits are those of the list from which they were taken", "[recipe]") {
  std::ifstream list(kRoot.parent_path() / "shared/references/surface_prep.csv");
  if (!list.is_open()) {
    WARN("the list of grits is not here: skipped");
    return;
  }
  const RecipeBook book;
  const auto sanding = book.sanding();
  REQUIRE(sanding);
  // EVIDENCE: common-practice 100 triples of a list made for this project (common practice, with
  // what pages of the trade say on stains, lacquer, waterborne and paint)
  std::size_t compared = 0;
  for (std::string line; std::getline(list, line);) {
    const std::vector<std::string> fields = fields_of(line);
    if (fields[0] != "final_grit") {
      continue;
    }
    CAPTURE(line);
    const GritLimits& limits =
        (*sanding)->final_grits.at(kLayers.at(fields[2])).limits.at(kWoods.at(fields[1]));
    CHECK(limits.coarsest == fields[3]);
    CHECK(limits.typical == fields[4]);
    CHECK(limits.finest == fields[5]);
    ++compared;
  }
  CHECK(compared == kLayers.size() * kWoods.size());
}

TEST_CASE("Every layer that may come first on wood has a last grit", "[recipe]") {
  const RecipeBook book;  // consistency check
  const auto sanding = book.sanding();
  REQUIRE(sanding);
  for (const std::string& name : book.product_names()) {
    const auto product = book.product(name);
    REQUIRE(product);
    CAPTURE(name, (*product)->layer);
    CHECK(((*product)->layer == "old-finish" ||  // is what the wood is sanded free of, or to
           (*sanding)->final_grits.contains((*product)->layer)));
  }
}

TEST_CASE("A wrong sanding table is refused where it stands", "[recipe]") {
  const std::string text = built_in_text();
  REQUIRE(parse_sanding(text, "sanding.toml"));
  check_refused(
      parse_sanding(with(text, "surface = \"sawn\"", "surface = \"hewn\""), "sanding.toml"),
      {"sanding.toml", "start_grit[1].surface", "found \"hewn\"", "sawn, planed"});
  check_refused(
      parse_sanding(with(text, "surface = \"sawn\"", "surface = \"planed\""), "sanding.toml"),
      {"start_grit[2].surface", "once"});
  check_refused(
      parse_sanding(with(text, "woods = \"softwood\"", "woods = \"hardwood\""), "sanding.toml"),
      {"grain_raising[2].woods", "once"});
  check_refused(parse_sanding(with(text, "sheen = \"matt\"", "sheen = \"satin\""), "sanding.toml"),
                {"rub_out[2].sheen", "once"});
  check_refused(
      parse_sanding(with(text, "[\"P600\", \"P800\"]", "[\"P800\", \"P600\"]"), "sanding.toml"),
      {"rub_out[2].grits", "finer"});
  check_refused(parse_sanding(with(text, "[\"gel-stain\"]", "[\"oil-stain\"]"), "sanding.toml"),
                {"final_grit[2].layers", "'oil-stain' again"});
  check_refused(parse_sanding(with(text,
                                   "surface = \"planed\"\ncoarsest = \"P100\"",
                                   "surface = \"planed\"\ncoarsest = \"P150\""),
                              "sanding.toml"),
                {"start_grit[2].typical", "found \"P120\"", "P150 or finer"});
  check_refused(
      parse_sanding(with(text, "[[rub_out]]\nsheen = \"matt\"", "[[rub]]\nsheen = \"matt\""),
                    "sanding.toml"),
      {"sanding.toml"});
}
