#include "scheduling/start_domain.h"

#include <catch2/catch.hpp>

using namespace coatwright;

TEST_CASE("Starts are numbered without holes", "[scheduling]") {
  const StartSet set{{{0, 20}, {35, 35}, {60, 90}}};
  const StartDomain domain(set, 5, 0, 1000);
  // Counted by walking over every tick.
  std::vector<Tick> starts;
  for (Tick tick = 0; tick <= 100; tick += 5) {
    if (tick <= 20 || tick == 35 || (tick >= 60 && tick <= 90)) {
      starts.push_back(tick);
    }
  }
  REQUIRE(domain.size() == static_cast<int>(starts.size()));
  for (int i = 0; i < domain.size(); ++i) {
    CHECK(domain.tick_of(i) == starts[static_cast<std::size_t>(i)]);
  }
  for (Tick tick = -3; tick <= 100; ++tick) {
    const auto first = std::lower_bound(starts.begin(), starts.end(), tick);
    CAPTURE(tick);
    CHECK(domain.index_up(tick) == static_cast<int>(first - starts.begin()));
    const auto after = std::upper_bound(starts.begin(), starts.end(), tick);
    CHECK(domain.index_down(tick) == static_cast<int>(after - starts.begin()) - 1);
  }
}

TEST_CASE("Limits cut starts off, on the grain", "[scheduling]") {
  const StartDomain domain(StartSet{{{0, 20}, {60, 90}}}, 5, 7, 83);
  CHECK(domain.tick_of(0) == 10);
  CHECK(domain.tick_of(domain.size() - 1) == 80);
  CHECK(StartDomain(StartSet{{{0, 20}}}, 5, 21, 100).size() == 0);
}

TEST_CASE("Starts that are barred leave no hole", "[scheduling]") {
  const StartDomain all(StartSet{{{0, 20}, {35, 35}, {60, 90}}}, 5, 7, 83);
  std::vector<char> barred(static_cast<std::size_t>(all.size()) + 1, 0);
  std::vector<Tick> starts;  // told one by one which are left
  for (int i = 0; i < all.size(); ++i) {
    barred[static_cast<std::size_t>(i)] = i % 3 == 1 ? 1 : 0;
    if (i % 3 != 1) {
      starts.push_back(all.tick_of(i));
    }
  }
  const StartDomain left = all.without(barred);
  REQUIRE(left.size() == static_cast<int>(starts.size()));
  for (Tick tick = -3; tick <= 100; ++tick) {
    const auto first = std::lower_bound(starts.begin(), starts.end(), tick);
    CAPTURE(tick);
    CHECK(left.index_up(tick) == static_cast<int>(first - starts.begin()));
  }
  for (int i = 0; i < left.size(); ++i) {
    CHECK(left.tick_of(i) == starts[static_cast<std::size_t>(i)]);
    CHECK(all.tick_of(left.number_of(i) - all.number_of(0)) == starts[static_cast<std::size_t>(i)]);
  }
}
