#include <catch2/catch.hpp>

#include "plan/random_shops.h"
#include "plan/shop_plan_checker.h"

using namespace coatwright;
using namespace asked;
using std::chrono::hours;

TEST_CASE("A shop of one part ends when that part alone would", "[plan]") {
  int complete = 0;
  for (unsigned number = 1; number <= 40; ++number) {
    const Drawn drawn = draw(number);
    INFO(in_words(number, drawn));
    const auto alone = make_plan(drawn.request, book(), drawn.air);
    const auto whole = make_shop_plan(shop_of(drawn.request), book(), drawn.air);
    REQUIRE(alone);
    REQUIRE(whole);
    CHECK(whole->complete == alone->complete);
    complete += alone->complete ? 1 : 0;
    if (alone->finish && whole->finish) {
      CHECK(show_utc(*whole->finish) == show_utc(*alone->finish));
    }
  }
  CHECK(complete > 20);
}

TEST_CASE("Random shops keep every rule by a second reckoning", "[plan]") {
  int complete = 0;
  for (unsigned number = 1; number <= 30; ++number) {
    const DrawnShop drawn = draw_shop(number);
    INFO(in_words(number, drawn));
    const auto plan = make_shop_plan(drawn.request, book(), drawn.first.air);
    REQUIRE(plan);
    const auto faults =
        own::ShopPlanChecker(*plan, drawn.request, book(), drawn.first.air).faults();
    for (const std::string& fault : faults) {
      UNSCOPED_INFO(fault);
    }
    CHECK(faults.empty());
    complete += plan->complete ? 1 : 0;
  }
  CHECK(complete > 15);
}
