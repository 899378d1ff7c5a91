#include "quantity/dry_film.h"

#include "quantity/sample_products.h"

using namespace coatwright;
using sample::kFilm;
using sample::product;

TEST_CASE("The coats of a face add up, as a range of their solids", "[quantity]") {
  const Product varnish = product("varnish", kFilm);  // 100 um wet, 30 to 40 %, at most 100 um
  const DryFilm film = dry_film_of({{&varnish, 2, {}, {}}});
  CHECK(film.total.low.micrometres() == Approx(60.0));
  CHECK(film.total.high.micrometres() == Approx(80.0));
  REQUIRE(film.checks.size() == 1);
  CHECK(film.checks[0].whole);
  CHECK(film.checks[0].verdict == FilmVerdict::kWithin);
}

TEST_CASE("A film that may be or is above its class's limit is told apart", "[quantity]") {
  const Product varnish = product("varnish", kFilm);
  CHECK(dry_film_of({{&varnish, 3, {}, {}}}).checks[0].verdict == FilmVerdict::kMayBeAbove);
  CHECK(dry_film_of({{&varnish, 4, {}, {}}}).checks[0].verdict == FilmVerdict::kAbove);
  const auto thick = FilmThickness::from_micrometres(250.0);  // 250 x 0.4 is the limit itself
  CHECK(dry_film_of({{&varnish, 1, thick, {}}}).checks[0].verdict == FilmVerdict::kWithin);
}

TEST_CASE("A sealer stands under its own limit and the whole under the top's", "[quantity]") {
  const Product sealer = product("sealer",
                                 "reference_wet_um = 100\nreference_source = \"judgement\"\n"
                                 "solids_low_percent = 20\nsolids_high_percent = 20\n"
                                 "solids_source = \"judgement\"\ntotal_dry_max_um = 25\n"
                                 "total_dry_source = \"judgement\"");
  const Product varnish = product("varnish", kFilm);
  const Product stain = product("stain");
  const DryFilm film =
      dry_film_of({{&stain, 1, {}, {}}, {&sealer, 2, {}, {}}, {&varnish, 2, {}, {}}});
  REQUIRE(film.without_film.size() == 1);
  CHECK(film.without_film[0]->name == "stain");
  REQUIRE(film.checks.size() == 2);
  CHECK(film.checks[0].product->name == "sealer");
  CHECK_FALSE(film.checks[0].whole);
  CHECK(film.checks[0].verdict == FilmVerdict::kAbove);  // 40 of 25 um
  CHECK(film.checks[1].dry.high.micrometres() == Approx(120.0));
  CHECK(film.checks[1].verdict == FilmVerdict::kMayBeAbove);
}

TEST_CASE("Thinner takes its share of a film's solids", "[quantity]") {
  const Product varnish = product("varnish", kFilm);
  const Thinning thinning{{"2-butoxyethanol", 0.07, "from memory"}, 0.2};
  const DryFilm film = dry_film_of({{&varnish, 1, {}, thinning}});
  // By hand: 30 % and t = 0.2 x 0.7 / 0.8 = 0.175: 25.53 %; 40 % and t = 0.15: 34.78 %
  CHECK(film.total.low.micrometres() == Approx(25.53).margin(0.005));
  CHECK(film.total.high.micrometres() == Approx(34.78).margin(0.005));
}

TEST_CASE("A finish without any film has no total and no check", "[quantity]") {
  const Product oil = product("oil");
  const DryFilm film = dry_film_of({{&oil, 3, {}, {}}});
  CHECK(film.layers.empty());
  CHECK(film.checks.empty());
  CHECK(film.total.high.micrometres() == 0.0);
}
