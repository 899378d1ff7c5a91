#include "quantity/batches.h"

#include <cmath>

#include <rapidcheck.h>

#include "quantity/sample_products.h"

using namespace coatwright;
using sample::air;
using sample::application;
using sample::coat;
using sample::kFilm;
using sample::kMix;
using sample::product;
using sample::tool;

TEST_CASE("Warm air shortens a pot life by its law, and cold air does not lengthen it",
          "[quantity]") {
  const Product varnish = product("varnish", kFilm, kMix);
  CHECK(pot_life_in(*varnish.mix, air(23.0))->hours() == Approx(2.0));
  CHECK(pot_life_in(*varnish.mix, air(10.0))->hours() == 2.0);
  // EVIDENCE: definition of the Arrhenius rate, by hand: 55 kJ/mol from 296.15 to 306.15 K
  const double rate = std::exp(55000.0 / 8.314462618 * (1.0 / 296.15 - 1.0 / 306.15));
  CHECK(rate == Approx(2.07).margin(0.01));
  CHECK(pot_life_in(*varnish.mix, air(33.0))->hours() == Approx(2.0 / rate).epsilon(1e-6));
}

TEST_CASE("A mix of which the pot life is not known has none", "[quantity]") {
  const std::string mix =
      "[mix]\nby = \"volume\"\nparts_source = \"judgement\"\n"
      "[[mix.part]]\nname = \"a\"\nparts = 1\n"
      "[[mix.part]]\nname = \"b\"\nparts = 1\n";
  const Product epoxy = product("epoxy", kFilm, mix);
  CHECK_FALSE(pot_life_in(*epoxy.mix, air()));
  const Tool brush = tool(Method::kBrush, 100);
  const auto amounts = amounts_of({coat(epoxy, brush, 1.0)}, application(), air());
  CHECK(amounts[0].batches.count() == 1);
  CHECK_FALSE(amounts[0].batches.too_short);
}

TEST_CASE("The fewest portions are found by trying all", "[quantity]") {
  CHECK(rc::check("fewest", [] {
    const auto work = Hours::from_minutes(*rc::gen::inRange(1, 2000));
    const auto usable = Hours::from_minutes(*rc::gen::inRange(1, 500));
    int fewest = 1;
    while (work.minutes() / fewest > usable.minutes() * (1.0 + 1e-9)) {
      ++fewest;
    }
    RC_ASSERT(portions(work, usable) == fewest);
  }));
  CHECK(portions(Hours::from_minutes(60), Hours::from_minutes(60)) == 1);
  CHECK(portions(Hours::from_minutes(61), Hours::from_minutes(60)) == 2);
  CHECK(portions(Hours::from_minutes(500), std::nullopt) == 1);
}

TEST_CASE("Each session has portions of its own, and standing is not for work", "[quantity]") {
  const Product varnish = product("varnish", kFilm, kMix);
  const Tool gun = tool(Method::kSpray, 100);
  CoatUse use = coat(varnish, gun, 10.0);
  use.sessions = {{Area::from_square_metres(4.0), Hours::from_minutes(100)},
                  {Area::from_square_metres(6.0), Hours::from_minutes(110)}};
  // 2 h less a quarter of an hour of standing: 105 min
  const auto amounts = amounts_of({use}, application(), air());
  const Batches& batches = amounts[0].batches;
  CHECK(batches.usable->minutes() == Approx(105.0));
  REQUIRE(batches.sessions.size() == 2);
  CHECK(batches.sessions[0].count == 1);
  CHECK(batches.sessions[0].each.litres() == Approx(0.4));
  CHECK(batches.sessions[1].count == 2);
  CHECK(batches.sessions[1].each.litres() == Approx(0.3));
  CHECK(batches.count() == 3);
}

TEST_CASE("A mix that has to stand longer than it lives cannot be used", "[quantity]") {
  std::string slow = kMix;
  slow.replace(slow.find("induction_minutes = 15"), 22, "induction_minutes = 90");
  const Product varnish = product("varnish", kFilm, slow);
  const Tool gun = tool(Method::kSpray, 100);
  const auto cool = amounts_of({coat(varnish, gun, 1.0)}, application(), air(23.0));
  CHECK_FALSE(cool[0].batches.too_short);
  const auto hot = amounts_of({coat(varnish, gun, 1.0)}, application(), air(35.0));
  CHECK(hot[0].batches.too_short);
  CHECK(hot[0].batches.sessions.empty());
  CHECK(hot[0].amount.litres() == Approx(cool[0].amount.litres()));
}
