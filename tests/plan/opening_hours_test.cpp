#include "plan/opening_hours.h"

#include <catch2/catch.hpp>

using namespace coatwright;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

namespace {

const Time kMidnight = Time(hours(24 * 20000));

Time clock(int hour, int minute = 0) {
  return kMidnight + hours(hour) + minutes(minute);
}

const OpeningHours kShop({{clock(8), clock(12)}, {clock(13), clock(17)}});

}  // namespace

TEST_CASE("Work starts on a whole five minutes", "[plan]") {
  CHECK(kShop.first_fit(clock(8), minutes(30)) == clock(8));
  CHECK(kShop.first_fit(clock(8) + seconds(1), minutes(30)) == clock(8, 5));
  CHECK(kShop.first_fit(clock(8, 4) + seconds(59), minutes(30)) == clock(8, 5));
}

TEST_CASE("A bound's work starts to the second", "[plan]") {
  const OpeningHours exact({{clock(8), clock(12)}}, seconds(1));
  CHECK(exact.first_fit(clock(8, 4) + seconds(59), minutes(30)) == clock(8, 4) + seconds(59));
}

TEST_CASE("Work fits as soon as it lies inside one opening", "[plan]") {
  CHECK(kShop.first_fit(clock(6), minutes(30)) == clock(8));
  CHECK(kShop.first_fit(clock(9, 12), minutes(30)) == clock(9, 15));
  CHECK(kShop.first_fit(clock(11, 30), minutes(30)) == clock(11, 30));
  CHECK(kShop.first_fit(clock(11, 31), minutes(30)) == clock(13));
  CHECK(kShop.first_fit(clock(8), hours(4)) == clock(8));
}

TEST_CASE("Work that lies over the lunch break is not split", "[plan]") {
  CHECK(kShop.first_fit(clock(10), hours(3)) == clock(13));
  CHECK_FALSE(kShop.first_fit(clock(8), hours(4) + minutes(5)));
}

TEST_CASE("After the last opening nothing fits", "[plan]") {
  CHECK_FALSE(kShop.first_fit(clock(17), minutes(5)));
  CHECK_FALSE(kShop.first_fit(clock(16, 31), minutes(30)));
  CHECK_FALSE(OpeningHours({}).first_fit(clock(8), minutes(5)));
}

TEST_CASE("An opening that begins off the grain is used from its first whole five minutes",
          "[plan]") {
  const OpeningHours odd({{clock(8, 2), clock(8, 30)}});
  CHECK(odd.first_fit(clock(6), minutes(25)) == clock(8, 5));
  CHECK_FALSE(odd.first_fit(clock(6), minutes(28)));
  CHECK(odd.why_none(minutes(28), "sand").find("no opening of the shop is that long") !=
        std::string::npos);
}

TEST_CASE("The reason tells short openings from openings that are over", "[plan]") {
  CHECK(kShop.why_none(hours(5), "a coat") ==
        "'a coat' takes 300 min in one go, and no opening of the shop is that long");
  CHECK(kShop.why_none(minutes(30), "a coat") ==
        "no shop hours are left for 'a coat' before the plan is given up");
}
