#include "print/strip.h"

#include <catch2/catch.hpp>

using namespace coatwright;

namespace {

Strip strip_of(double height, bool with_next = false) {
  Strip strip;
  strip.height = height;
  strip.with_next = with_next;
  return strip;
}

}  // namespace

TEST_CASE("Strips fill a page from the top", "[print]") {
  const std::vector<Strip> strips = {strip_of(40), strip_of(40), strip_of(40)};
  const auto pages = pages_of(strips, 100);
  REQUIRE(pages.size() == 2);
  REQUIRE(pages[0].size() == 2);
  CHECK(pages[0][1].y == 40);
  CHECK(pages[1][0].strip == &strips[2]);
  CHECK(pages[1][0].y == 0);
}

TEST_CASE("A heading goes to the page of what follows it", "[print]") {
  const std::vector<Strip> strips = {strip_of(70), strip_of(20, true), strip_of(30)};
  const auto pages = pages_of(strips, 100);
  REQUIRE(pages.size() == 2);
  CHECK(pages[1][0].strip == &strips[1]);
}

TEST_CASE("What belongs together and is higher than a page is parted", "[print]") {
  std::vector<Strip> strips(10, strip_of(30, true));
  const auto pages = pages_of(strips, 100);
  std::size_t placed = 0;
  for (const PrintedPage& page : pages) {
    REQUIRE(!page.empty());
    CHECK(page.back().y + page.back().strip->height <= 100);
    placed += page.size();
  }
  CHECK(placed == strips.size());
}

TEST_CASE("A head stands again on each page that goes on beneath it", "[print]") {
  const auto head = std::make_shared<const Strip>(strip_of(10, true));
  std::vector<Strip> strips = {*head};
  for (int i = 0; i < 4; ++i) {
    strips.push_back(strip_of(40));
    strips.back().head = head;
  }
  const auto pages = pages_of(strips, 100);
  REQUIRE(pages.size() == 2);
  CHECK(pages[1][0].strip == head.get());
  CHECK(pages[1][1].y == 10);
}

TEST_CASE("A page break begins a page, and none that is empty", "[print]") {
  std::vector<Strip> strips = {strip_of(10), strip_of(10)};
  strips[0].new_page = true;
  strips[1].new_page = true;
  CHECK(pages_of(strips, 100).size() == 2);
  CHECK(pages_of({}, 100).size() == 1);
}
