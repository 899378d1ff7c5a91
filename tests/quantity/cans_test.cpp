#include "quantity/cans.h"

#include <cmath>

#include <rapidcheck.h>

#include "quantity/sample_products.h"

using namespace coatwright;

namespace {

std::vector<CanSize> sizes_of(const std::vector<int>& millilitres) {
  std::vector<CanSize> sizes;
  for (const int amount : millilitres) {
    sizes.push_back({std::to_string(amount), UnitSystem::kMetric, amount});
  }
  return sizes;
}

int cans_in(const CanPurchase& purchase) {
  int count = 0;
  for (const auto& [can, number] : purchase.cans) {
    count += number;
  }
  return count;
}

int millilitres_in(const CanPurchase& purchase) {
  int sum = 0;
  for (const auto& [can, number] : purchase.cans) {
    sum += can.amount * number;
  }
  return sum;
}

/// The least total, and then the fewest cans, by trying every number of each can.
struct Best {
  int total = 1 << 30;
  int count = 1 << 30;
};

void try_all(
    const std::vector<int>& sizes, std::size_t at, int needed, int total, int count, Best& best) {
  if (total >= needed) {
    if (total < best.total || (total == best.total && count < best.count)) {
      best = {total, count};
    }
    return;
  }
  for (std::size_t i = at; i < sizes.size(); ++i) {
    try_all(sizes, i, needed, total + sizes[i], count + 1, best);
  }
}

}  // namespace

TEST_CASE("The cans with the least left over, then the fewest, are found by trying all",
          "[quantity]") {
  CHECK(rc::check("best", [] {
    const std::vector<std::vector<int>> kinds = {
        {250, 500, 1000, 2500, 5000}, {750, 1000}, {1000, 1500}, {300, 700, 1100}};
    const auto sizes = *rc::gen::elementOf(kinds);
    const int needed = *rc::gen::inRange(1, 9000);
    Best best;
    try_all(sizes, 0, needed, 0, 0, best);
    const CanPurchase bought = cans_for(Volume::from_litres(needed / 1000.0), sizes_of(sizes));
    RC_ASSERT(millilitres_in(bought) == best.total);
    RC_ASSERT(cans_in(bought) == best.count);
    RC_ASSERT(std::abs(bought.total.litres() * 1000.0 - best.total) < 1e-6);
    RC_ASSERT(std::abs(bought.left_over.litres() * 1000.0 - (best.total - needed)) < 1e-6);
  }));
}

TEST_CASE("An amount that fills its cans leaves nothing over", "[quantity]") {
  const auto sizes = sizes_of({250, 500, 1000});
  const CanPurchase bought = cans_for(Volume::from_litres(0.1 + 0.65), sizes);
  CHECK(millilitres_in(bought) == 750);
  CHECK(bought.cans.front().first.amount == 500);
  CHECK(cans_for(Volume::from_litres(0.0), sizes).cans.empty());
}

TEST_CASE("American cans hold their fluid ounces", "[quantity]") {
  // EVIDENCE: nist_sp811 B.8 (from memory): a US quart is 0.946352946 L and 32 fluid ounces
  const CanSize quart{"quart", UnitSystem::kUs, 32};
  const CanSize half_pint{"half pint", UnitSystem::kUs, 8};
  CHECK(quart.volume().litres() == Approx(0.946352946));
  const CanPurchase bought = cans_for(Volume::from_us_quarts(1.1), {half_pint, quart});
  REQUIRE(bought.cans.size() == 2);
  CHECK(bought.cans[0].first.name == "quart");
  CHECK(bought.left_over.us_quarts() == Approx(0.15));
}

TEST_CASE("A mix is bought by its parts", "[quantity]") {
  const Product varnish = sample::product("varnish", sample::kFilm, sample::kMix);
  const Product oil = sample::product("oil");
  const Tool brush = sample::tool(Method::kBrush, 100);
  const auto amounts =
      amounts_of({sample::coat(varnish, brush, 10.0), sample::coat(oil, brush, 8.0)},
                 sample::application(),
                 sample::air());
  const auto bought = purchases_for(amounts, sizes_of({250, 500, 1000}));
  REQUIRE(bought.size() == 3);
  CHECK(bought[0].part == "base");
  CHECK(bought[0].needed.litres() == Approx(0.8));
  CHECK(bought[1].part == "hardener");
  CHECK(millilitres_in(bought[1].cans) == 250);
  CHECK(bought[2].part.empty());
  CHECK(bought[2].needed.litres() == Approx(1.0));
}

TEST_CASE("A can that is opened is to be used up by its months", "[quantity]") {
  Storage storage;
  const Time opened{std::chrono::hours(24 * 20000)};
  CHECK_FALSE(use_by(storage, opened));
  storage.opened_months = Sourced<double>{6.0, "judgement", ""};
  CHECK(*use_by(storage, opened) == opened + std::chrono::hours(24 * 180));
}
