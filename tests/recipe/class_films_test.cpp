// The products' films and grits against tables that may lie beside the repository.
#include <map>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "recipe/recipe_book.h"
#include "recipe/reference_table.h"

namespace coatwright {
namespace {

using test::table;

const Product& product(const RecipeBook& book, const std::string& name) {
  const Result<const Product*> found = book.product(name);
  if (!found) {
    FAIL(found.error().message);
  }
  return **found;
}

/// The classes of the film table by the products' layers.
const std::map<std::string, std::string>& layers_of_films() {
  static const std::map<std::string, std::string> kLayers = {
      {"oil_varnish_blend", "oil-varnish-blend"},
      {"drying_oil", "drying-oil"},
      {"hardwax_oil", "hardwax-oil"},
      {"dewaxed_shellac", "dewaxed-shellac"},
      {"waxed_shellac", "waxed-shellac"},
      {"nc_sanding_sealer", "nitrocellulose-sealer"},
      {"vinyl_sealer", "vinyl-sealer"},
      {"nc_lacquer", "nitrocellulose-lacquer"},
      {"precat_lacquer", "precatalysed-lacquer"},
      {"conversion_varnish", "conversion-varnish"},
      {"waterborne_clear", "waterborne-clear"},
      {"oil_poly_varnish", "oil-varnish"},
      {"wiping_varnish", "wiping-varnish"},
      {"pu_2k", "two-part-polyurethane"},
      {"alkyd_enamel", "alkyd-enamel"},
      {"waterborne_enamel", "waterborne-enamel"},
      {"epoxy_seal", "epoxy-sealer"},
  };
  return kLayers;
}

std::vector<const Product*> products_of_layer(const RecipeBook& book, const std::string& layer) {
  std::vector<const Product*> found;
  for (const std::string& name : book.product_names()) {
    if (product(book, name).layer == layer) {
      found.push_back(&product(book, name));
    }
  }
  return found;
}

}  // namespace

TEST_CASE("All coats together stay within the film that the class bears", "[recipe]") {
  // EVIDENCE: common-practice: the table of film limits, in mil of 25.4 um
  const RecipeBook book;
  for (const auto& cells : table("surface_film_limits.csv")) {
    CAPTURE(cells.front());
    REQUIRE(layers_of_films().contains(cells.front()));
    const auto found = products_of_layer(book, layers_of_films().at(cells.front()));
    CHECK_FALSE(found.empty());
    for (const Product* one : found) {
      CAPTURE(one->name);
      REQUIRE(one->film.total_dry_max);
      CHECK(one->film.total_dry_max->value.micrometres() ==
            Approx(std::stod(cells[7]) * 25.4).margin(0.5));
    }
  }
}

TEST_CASE("Between coats the grit is one that the class is abraded with", "[recipe]") {
  // EVIDENCE: common-practice: the table of preparation, "between_coats"; pads are left out
  const RecipeBook book;
  for (const auto& cells : table("surface_prep.csv")) {
    if (cells.front() != "between_coats" || cells[3].front() != 'P') {
      continue;
    }
    CAPTURE(cells[2]);
    for (const Product* one : products_of_layer(book, layers_of_films().at(cells[2]))) {
      CAPTURE(one->name, one->abrade_grit);
      if (one->abrade_grit.empty()) {
        CHECK(one->kind == ProductKind::kOil);  // wet sanding of oils is a matter of taste
        continue;
      }
      CHECK(std::stoi(one->abrade_grit.substr(1)) >= std::stoi(cells[3].substr(1)));
      CHECK(std::stoi(one->abrade_grit.substr(1)) <= std::stoi(cells[5].substr(1)));
    }
  }
}

TEST_CASE("As many coats as are usual at least fit into the film that a class bears", "[recipe]") {
  const RecipeBook book;  // consistency check
  std::size_t checked = 0;
  for (const std::string& name : book.product_names()) {
    const Product& one = product(book, name);
    if (!one.film.reference_wet || !one.film.solids || !one.film.total_dry_max) {
      continue;
    }
    CAPTURE(name);
    const PercentRange& solids = one.film.solids->value;
    const double dry = one.film.reference_wet->value.micrometres() * (solids.low + solids.high) /
                       200.0;  // of one coat
    REQUIRE(one.usual_coats);
    CHECK(dry * one.usual_coats->low <= one.film.total_dry_max->value.micrometres());
    ++checked;
  }
  CHECK(checked > 10);
}

}  // namespace coatwright
