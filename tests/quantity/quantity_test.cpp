#include "quantity/quantity.h"

#include <numeric>

#include <rapidcheck.h>

#include "quantity/reckoning.h"
#include "quantity/sample_products.h"

using namespace coatwright;
using sample::air;
using sample::application;
using sample::coat;
using sample::kFilm;
using sample::kMix;
using sample::product;
using sample::tool;

TEST_CASE("A film of one mil spreads as the paint trade's constant says", "[quantity]") {
  // EVIDENCE: paint_arithmetic (trade arithmetic, read): 1604 sq ft per US gallon and mil of film
  const double m2_per_l = spread_from_wet_film_m2_per_l(FilmThickness::from_mils(1.0));
  CHECK(sample::square_feet_per_gallon(m2_per_l) == Approx(1604.17).margin(0.01));
  // EVIDENCE: nist_sp811 B.8 (from memory): a US gallon is 231 cubic inches, 12000 = 144 / 0.001 in
  CHECK(sample::square_feet_per_gallon(m2_per_l) == Approx(231.0 / 0.144).epsilon(1e-9));
  CHECK(m2_per_l == Approx(39.3701).margin(0.0001));
}

TEST_CASE("A litre over a thousand square metres is one micrometre", "[quantity]") {
  // EVIDENCE: definition of the litre, 1 dm3
  CHECK(spread_from_wet_film_m2_per_l(FilmThickness::from_micrometres(1.0)) == Approx(1000.0));
}

TEST_CASE("Five hundred square feet a gallon is a film of 3.2 mils", "[quantity]") {
  // EVIDENCE: paint_arithmetic (read): 500 ft2/gal = 12.27 m2/L = 3.21 wet mil, brushed varnish
  const double m2_per_l = Area::from_square_feet(500).square_metres() / 3.785411784;
  CHECK(m2_per_l == Approx(12.27).margin(0.005));
  CHECK(spread_from_wet_film_m2_per_l(FilmThickness::from_mils(3.21)) ==
        Approx(12.27).margin(0.02));
}

TEST_CASE("A product without a film is reckoned from its low spreading rate", "[quantity]") {
  const Product oil = product("oil");
  const Tool pad = tool(Method::kPad, 90);
  const CoverRate rate = cover_rate(coat(oil, pad, 2.0));
  CHECK(rate.m2_per_l == 8.0);  // by hand: 3 coats of 2 m2 at 8 m2/L are 0.75 L
  CHECK_FALSE(rate.film);
  CHECK_FALSE(rate.on_the_wood);
  const auto amounts = amounts_of(
      {coat(oil, pad, 2.0), coat(oil, pad, 2.0), coat(oil, pad, 2.0)}, application(), air());
  REQUIRE(amounts.size() == 1);
  CHECK(amounts[0].amount.litres() == Approx(0.75));
  REQUIRE(amounts[0].groups.size() == 1);
  CHECK(amounts[0].groups[0].coats == 3);
}

TEST_CASE("What a gun loses comes on top of the spreading rate", "[quantity]") {
  const Product oil = product("oil");
  const Tool gun = tool(Method::kSpray, 50);
  CHECK(cover_rate(coat(oil, gun, 1.0)).m2_per_l == Approx(4.0));
  CHECK(cover_rate(coat(oil, gun, 1.0)).on_the_wood == 0.5);
}

TEST_CASE("A film is reckoned with what stays on the wood, and a wiped one is not", "[quantity]") {
  const Product varnish = product("varnish", kFilm);
  const Tool brush = tool(Method::kBrush, 95);
  const Tool cloth = tool(Method::kWipe, 85);
  CHECK(cover_rate(coat(varnish, brush, 1.0)).m2_per_l == Approx(9.5));  // 1000 x 0.95 / 100
  CHECK(cover_rate(coat(varnish, cloth, 1.0)).m2_per_l == Approx(8.0));
  CoatUse thick = coat(varnish, cloth, 1.0);
  thick.wet_film = FilmThickness::from_micrometres(200);  // the schedule states it
  CHECK(cover_rate(thick).m2_per_l == Approx(4.25));      // 1000 x 0.85 / 200
}

TEST_CASE("Small parts take a gun's lower figure where it has one", "[quantity]") {
  const Product lacquer = product("lacquer", kFilm);
  Tool gun = tool(Method::kSpray, 60);
  CoatUse legs = coat(lacquer, gun, 1.0);
  legs.small_parts = true;
  CHECK(cover_rate(legs).m2_per_l == Approx(6.0));
  gun.small_parts_percent = 40;
  CHECK(cover_rate(legs).m2_per_l == Approx(4.0));
}

TEST_CASE("Pieces are summed, and the waste comes on top", "[quantity]") {
  const Product varnish = product("varnish", kFilm);
  const Tool brush = tool(Method::kBrush, 100);
  CoatUse shelf = coat(varnish, brush, 3.0);
  shelf.piece = "shelf";
  const auto amounts = amounts_of(
      {coat(varnish, brush, 1.0), coat(varnish, brush, 1.0), shelf}, application(10), air());
  REQUIRE(amounts.size() == 1);
  CHECK(amounts[0].groups.size() == 2);
  CHECK(amounts[0].used.litres() == Approx(0.5));
  CHECK(amounts[0].amount.litres() == Approx(0.55));
}

TEST_CASE("A thinned product is bought without its thinner", "[quantity]") {
  // By hand: half solids; a thinner that is a third of the solvent is a quarter litre to the litre.
  CHECK(thinner_ratio(0.5, 1.0 / 3.0) == Approx(0.25));
  const Product lacquer =
      product("lacquer",
              "reference_wet_um = 100\nreference_source = \"judgement\"\nsolids_low_percent = 50\n"
              "solids_high_percent = 50\nsolids_source = \"judgement\"");
  const Tool gun = tool(Method::kSpray, 100);
  CoatUse thinned = coat(lacquer, gun, 10.0);
  thinned.thinning = Thinning{{"2-butoxyethanol", 0.07, "from memory"}, 1.0 / 3.0};
  const auto amounts = amounts_of({thinned}, application(), air());
  CHECK(amounts[0].amount.litres() == Approx(1.0));
  CHECK(amounts[0].supplied.litres() == Approx(0.8));
  CHECK(amounts[0].thinner.litres() == Approx(0.2));
  CHECK(amounts[0].thinner_name == "2-butoxyethanol");
}

TEST_CASE("Litres grow with the area and the coats", "[quantity]") {
  const Product varnish = product("varnish", kFilm);
  CHECK(rc::check("linear", [&varnish](bool sprayed) {
    const double area = *rc::gen::inRange(1, 5000) / 100.0;
    const int coats = *rc::gen::inRange(1, 9);
    const int factor = *rc::gen::inRange(1, 9);
    const Tool any = tool(sprayed ? Method::kSpray : Method::kBrush, *rc::gen::inRange(1, 101));
    const auto litres = [&](double of, int times) {
      const std::vector<CoatUse> uses(static_cast<std::size_t>(times), coat(varnish, any, of));
      return amounts_of(uses, application(10), air())[0].amount.litres();
    };
    const double once = litres(area, coats);
    RC_ASSERT(std::abs(litres(area * factor, coats) - once * factor) < 1e-9 * once * factor);
    RC_ASSERT(std::abs(litres(area, coats * factor) - once * factor) < 1e-9 * once * factor);
  }));
}

TEST_CASE("Parts and portions add up to the whole", "[quantity]") {
  const Product varnish = product("varnish", kFilm, kMix);
  CHECK(rc::check("sums", [&varnish] {
    const Tool any = tool(Method::kSpray, *rc::gen::inRange(10, 101));
    std::vector<CoatUse> uses;
    const int coats = *rc::gen::inRange(1, 6);
    for (int i = 0; i < coats; ++i) {
      CoatUse use = coat(varnish, any, 0.0);
      use.sessions.clear();
      double square_metres = 0.0;
      const int sessions = *rc::gen::inRange(1, 4);
      for (int s = 0; s < sessions; ++s) {
        const double area = *rc::gen::inRange(1, 2000) / 100.0;
        square_metres += area;
        use.sessions.push_back(
            {Area::from_square_metres(area), Hours::from_minutes(*rc::gen::inRange(1, 900))});
      }
      use.area = Area::from_square_metres(square_metres);
      uses.push_back(use);
    }
    const auto amounts = amounts_of(uses, application(10), air(*rc::gen::inRange(5, 35)));
    const ProductAmount& whole = amounts[0];
    double parts = 0.0;
    for (const MixShare& share : whole.mix) {
      parts += share.amount.litres();
    }
    RC_ASSERT(std::abs(parts - whole.supplied.litres()) < 1e-9 * parts);
    double portions = 0.0;
    for (const SessionBatches& session : whole.batches.sessions) {
      portions += session.count * session.each.litres();
      RC_ASSERT(session.work.hours() <= whole.batches.usable->hours() * (1.0 + 1e-6));
    }
    RC_ASSERT(std::abs(portions - whole.amount.litres()) < 1e-9 * portions);
  }));
}

TEST_CASE("Parts by mass keep their ratio", "[quantity]") {
  std::string by_mass = kMix;
  by_mass.replace(by_mass.find("\"volume\""), 8, "\"mass\"");
  const Product epoxy = product("epoxy", kFilm, by_mass);
  const Tool brush = tool(Method::kBrush, 100);
  const auto amounts = amounts_of({coat(epoxy, brush, 10.0)}, application(), air());
  REQUIRE(amounts[0].mix.size() == 2);
  CHECK(amounts[0].mix[0].share == Approx(0.8));
  CHECK(amounts[0].mix[1].share == Approx(0.2));
}

TEST_CASE("How an amount comes about is said in a line", "[quantity]") {
  const Product lacquer = product("lacquer", kFilm);
  const Tool gun = tool(Method::kSpray, 60);
  const auto amounts =
      amounts_of({coat(lacquer, gun, 1.9), coat(lacquer, gun, 1.9)}, application(10), air());
  CHECK(reckoning_of(amounts[0], UnitSystem::kMetric) ==
        "2 coats on 1.90 m2, 100 um wet, 60 % of it on the wood with a tool; 10 % more for waste");
  CHECK(reckoning_of(amounts[0], UnitSystem::kUs) ==
        "2 coats on 20.5 sq ft, 3.9 mil wet, 60 % of it on the wood with a tool; 10 % more for "
        "waste");
  const Product oil = product("oil");
  const Tool pad = tool(Method::kPad, 90);
  const auto oiled = amounts_of({coat(oil, pad, 1.0)}, application(10), air());
  // EVIDENCE: paint_arithmetic: 1 m2/L is 40.746 sq ft per US gallon
  CHECK(reckoning_of(oiled[0], std::nullopt) ==
        "1 coat on 1.00 m2 (11 sq ft) at 8.0 m2/L (326 sq ft/gal), the low end of its spreading "
        "rate; 10 % more for waste");
}
