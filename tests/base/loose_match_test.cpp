#include "base/loose_match.h"

#include <catch2/catch.hpp>

using namespace coatwright;

TEST_CASE("Case, blanks, hyphens and underscores do not tell two texts apart", "[base]") {
  CHECK(matches_loosely("tack-free", "Tack free"));
  CHECK(matches_loosely("set to touch", "SETTO_TOUCH"));
  CHECK(matches_loosely(" runs\t", "runs"));
  CHECK(matches_loosely("", " - "));
}

TEST_CASE("Letters, digits and other marks do", "[base]") {
  CHECK_FALSE(matches_loosely("tacky", "tack"));
  CHECK_FALSE(matches_loosely("print", "prints"));
  CHECK_FALSE(matches_loosely("P150", "P 180"));
  CHECK_FALSE(matches_loosely("runs", "runs!"));
}
