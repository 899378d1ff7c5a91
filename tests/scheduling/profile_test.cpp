#include "scheduling/profile.h"

#include <vector>

#include <catch2/catch.hpp>

#include "scheduling/random.h"

using namespace coatwright;

// Checked against: a table of what is free at each tick.
TEST_CASE("A profile knows at each tick what is free", "[scheduling]") {
  constexpr Tick kTicks = 60;
  for (std::uint64_t seed = 0; seed < 40; ++seed) {
    CAPTURE(seed);
    Random random(seed);
    const std::vector<CapacityStep> capacity = {{0, 3}, {20, 1}, {30, 4}};
    Profile profile(capacity);
    std::vector<int> free;
    for (Tick tick = 0; tick < kTicks; ++tick) {
      free.push_back(tick < 20 ? 3 : tick < 30 ? 1 : 4);
    }
    for (int i = 0; i < 30; ++i) {
      const Tick begin = random.below(kTicks - 1);
      const Tick end = begin + 1 + random.below(kTicks - begin - 1);
      const int amount = random.below(5) - 2;
      profile.take(begin, end, amount);
      for (Tick tick = begin; tick < end; ++tick) {
        free[tick] -= amount;
      }
      const Tick asked = random.below(kTicks - 1);
      const Tick until = asked + 1 + random.below(kTicks - asked - 1);
      const int needed = random.below(5);
      std::optional<Tick> first;
      std::optional<Tick> last;
      for (Tick tick = asked; tick < until; ++tick) {
        if (free[tick] < needed) {
          first = first ? first : tick;
          last = tick;
        }
      }
      CHECK(profile.fits(asked, until, needed) == !first);
      if (first) {
        const auto left = profile.first_shortage(asked, until, needed);
        const auto right = profile.last_shortage(asked, until, needed);
        REQUIRE(left.has_value());
        REQUIRE(right.has_value());
        CHECK(left->from <= *first);
        CHECK((left->from == *first || *first == asked));
        CHECK(right->until > *last);
        CHECK((right->until >= kTicks || free[right->until] >= needed));
      }
    }
  }
}
