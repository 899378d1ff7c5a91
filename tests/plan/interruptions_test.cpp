#include "plan/interruptions.h"

#include <catch2/catch.hpp>

using namespace coatwright;

namespace {

/// Two openings, 1:00 to 5:00 with two people and 6:00 to 10:00 with one, and these works.
ShopModel shop_with(const std::vector<Tick>& lengths) {
  ShopModel model{TickScale(Time()), {}, {}, {}, {}, {}, {}, {}, {}};
  model.project.resources = {{"people", {{0, 0}, {60, 2}, {300, 0}, {360, 1}, {600, 0}}}};
  model.resources.people = 0;
  for (const Tick length : lengths) {
    model.project.activities.push_back({"work", length, {}, 0});
  }
  return model;
}

}  // namespace

TEST_CASE("A break is where nobody is at work in an open shop", "[plan]") {
  // Counted by hand: after 2:30, and after 7:00; not over the time in which the shop is closed.
  const ShopModel model = shop_with({40, 60, 50, 60, 30, 30});
  CHECK(breaks_in_work(model, {{60, 90, 200, 360, 450, 480}}) == 2);
  CHECK(breaks_in_work(model, {{60, 100, 160, 210, 270, 270}}) == 0);
  CHECK(breaks_in_work(shop_with({}), {{}}) == 0);
}

TEST_CASE("Work that ends with the hours has no break after it", "[plan]") {
  const ShopModel model = shop_with({240, 100});
  CHECK(breaks_in_work(model, {{60, 400}}) == 0);  // it only begins later
  CHECK(breaks_in_work(model, {{60, 360}}) == 0);
}

TEST_CASE("Less than a grain between two works is no break", "[plan]") {
  // By hand, with starts at 0, 5, 10 ... minutes: after 1:32 none could lie before 1:35.
  ShopModel model = shop_with({32, 30});
  model.project.grain = kGrainTicks;
  CHECK(breaks_in_work(model, {{60, 95}}) == 0);
  CHECK(breaks_in_work(model, {{60, 96}}) == 1);
  CHECK(breaks_in_work(model, {{60, 100}}) == 1);  // at 1:35
  model.project.activities.front().length = 30;
  CHECK(breaks_in_work(model, {{60, 90}}) == 0);
  CHECK(breaks_in_work(model, {{60, 95}}) == 1);  // at 1:30
}
