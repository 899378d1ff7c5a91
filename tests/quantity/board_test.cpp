#include "quantity/board.h"

#include <catch2/catch.hpp>

using namespace coatwright;

TEST_CASE("A board has its faces and four edges", "[quantity]") {
  // EVIDENCE: definition of a box's surface, by hand: 1.2 x 0.6 and 30 mm around 3.6 m
  const Dimensions size = *parse_dimensions("1200x600x30mm");
  CHECK(board_area(size, 1, false).square_metres() == Approx(0.72));
  CHECK(board_area(size, 2, false).square_metres() == Approx(1.44));
  CHECK(board_area(size, 1, true).square_metres() == Approx(0.828));
  CHECK(board_area(size, 2, true).square_metres() == Approx(1.548));
}

TEST_CASE("Parts count as often as they are there", "[quantity]") {
  Part shelf;
  shelf.count = 4;
  shelf.size = *parse_dimensions("800x250x20mm");
  Part back;
  back.size = *parse_dimensions("1000x500x6mm");
  back.faces = 1;
  back.edges = false;
  // By hand: a shelf has 2 x 0.2 + 2 x 1.05 x 0.02 = 0.442 m2
  CHECK(area_of({shelf, back}).square_metres() == Approx(4 * 0.442 + 0.5));
}
