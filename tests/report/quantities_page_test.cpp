#include "report/quantities_page.h"

#include <nlohmann/json.hpp>

#include "quantity/sample_products.h"

using namespace coatwright;
using Catch::Contains;
using sample::coat;
using sample::kFilm;
using sample::kMix;
using sample::product;
using sample::tool;

namespace {

/// A job of one product, with all that its page points into.
struct Sheet {
  Product made;
  Tool used_tool;
  std::vector<CoatUse> coats;
  std::vector<PieceOfJob> pieces;
  std::vector<ProductAmount> products;
  std::vector<Purchase> purchases;
  Waste waste{10, "judgement", "judgement", "none found"};
  Zone zone = *Zone::find("UTC");

  Sheet(Product which, Tool with, const Thinning* thinning = nullptr)
      : made(std::move(which)), used_tool(std::move(with)) {
    coats.push_back(coat(made, used_tool, 1.9));
    if (thinning != nullptr) {
      coats.back().thinning = *thinning;
    }
    pieces.push_back({"table",
                      "a-schedule",
                      Area::from_square_metres(1.9),
                      1,
                      dry_film_of({{&made, 1, {}, coats.back().thinning}})});
    products = amounts_of(coats, sample::application(10), sample::air());
    purchases = purchases_for(products, {{"1 L", UnitSystem::kMetric, 1000}});
  }

  [[nodiscard]] QuantitiesView view(UnitSystem units = UnitSystem::kMetric) const {
    return {pieces,
            products,
            purchases,
            waste,
            sample::air(),
            "as given",
            Time(std::chrono::hours(24 * 20000)),
            zone,
            units};
  }
  [[nodiscard]] std::string page(UnitSystem units = UnitSystem::kMetric) const {
    return one_line(show_quantities(view(units)));
  }
  [[nodiscard]] std::string explained() const { return one_line(explain_quantities(view())); }

  /// Lines joined, so that where one breaks does not matter.
  static std::string one_line(const std::string& text) {
    std::string joined;
    for (const char c : text) {
      const bool blank = c == ' ' || c == '\n';
      if (!blank || (!joined.empty() && joined.back() != ' ')) {
        joined += blank ? ' ' : c;
      }
    }
    return joined;
  }
};

}  // namespace

TEST_CASE("Amounts are shown in the units of a shop", "[report]") {
  CHECK(amount_text(Volume::from_litres(0.035), UnitSystem::kMetric) == "35 ml");
  CHECK(amount_text(Volume::from_litres(0.35), UnitSystem::kMetric) == "0.35 L");
  // EVIDENCE: nist_sp811 B.8 (from memory): 32 fluid ounces to the quart, four quarts to the gallon
  CHECK(amount_text(Volume::from_us_quarts(0.25), UnitSystem::kUs) == "8.0 fl oz");
  CHECK(amount_text(Volume::from_us_quarts(1.5), UnitSystem::kUs) == "1.50 qt");
  CHECK(amount_text(Volume::from_us_quarts(6.0), UnitSystem::kUs) == "1.50 gal");
}

TEST_CASE("The page of a mix says its parts, portions and pot life", "[report]") {
  const Sheet sheet(product("varnish", kFilm, kMix), tool(Method::kSpray, 100));
  const std::string page = sheet.page();
  CHECK_THAT(page, Contains("varnish: base 0.17 L 1 x 1 L 0.83 L"));
  CHECK_THAT(page, Contains("4 parts of base to 1 part of hardener, by volume: 0.17 L and 42 ml"));
  CHECK_THAT(page, Contains("1 of 0.21 L for table. Let it stand 15 min first."));
  CHECK_THAT(page, Contains("use each up within 2 h of mixing, so that 1 h 45 min are left"));
  CHECK_THAT(page, Contains("In all 30 to 40 um, within the 100 um"));
  CHECK_THAT(page, !Contains("crack"));
  CHECK_THAT(sheet.page(UnitSystem::kUs), Contains("In all 1.2 to 1.6 mil"));
  CHECK_THAT(sheet.explained(), Contains("pot life = low end / rate"));
  CHECK_THAT(sheet.explained(), Contains("1 x 100 um x 30.0 to 40.0 % = 30.0 to 40.0 um"));
}

TEST_CASE("Parts by mass are to be weighed, and a pot life may not be known", "[report]") {
  const Sheet sheet(product("epoxy",
                            kFilm,
                            "[mix]\nby = \"mass\"\nparts_source = \"judgement\"\n"
                            "[[mix.part]]\nname = \"resin\"\nparts = 100\n"
                            "[[mix.part]]\nname = \"hardener\"\nparts = 25\n"),
                    tool(Method::kBrush, 95));
  CHECK_THAT(sheet.page(), Contains("100 parts of resin to 25 parts of hardener, by mass: weigh"));
  CHECK_THAT(sheet.page(), Contains("Its pot life is not known here: see its label."));
  const auto json = nlohmann::json::parse(quantities_as_json(sheet.view()));
  CHECK(json["products"][0]["mix"]["by"] == "mass");
  CHECK(json["products"][0]["mix"]["pot_life_hours"].is_null());
}

TEST_CASE("A thinned product is bought beside its thinner", "[report]") {
  const Thinning thinning{{"2-butoxyethanol", 0.07, "from memory"}, 0.2};
  const Sheet sheet(product("lacquer", kFilm), tool(Method::kSpray, 60), &thinning);
  CHECK_THAT(sheet.page(), Contains("lacquer: 2-butoxyethanol"));
  CHECK_THAT(sheet.page(), Contains("of 2-butoxyethanol in"));
}

TEST_CASE("A finish of which no film is known says so", "[report]") {
  const Sheet sheet(product("oil"), tool(Method::kWipe, 85));
  CHECK_THAT(sheet.page(), Contains("Not known: no wet film and solids"));
  CHECK_THAT(sheet.explained(), Contains("litres = coats x area / spreading rate"));
  const auto json = nlohmann::json::parse(quantities_as_json(sheet.view()));
  CHECK(json["pieces"][0]["dry_film"]["total"].is_null());
}

TEST_CASE("Where no coat is to come nothing is bought", "[report]") {
  const Sheet sheet(product("oil"), tool(Method::kWipe, 85));
  const std::vector<ProductAmount> none;
  const std::vector<Purchase> nothing;
  const QuantitiesView view{sheet.pieces,
                            none,
                            nothing,
                            sheet.waste,
                            sample::air(),
                            "as given",
                            Time{},
                            sheet.zone,
                            UnitSystem::kMetric};
  CHECK_THAT(show_quantities(view), Contains("Nothing: no coat is still to come."));
}
