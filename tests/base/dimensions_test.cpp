#include <catch2/catch.hpp>

#include "base/quantity_text.h"

using namespace coatwright;

TEST_CASE("Length, width and thickness are read with their unit", "[base]") {
  const auto metric = parse_dimensions("1200x600x30mm");
  REQUIRE(metric);
  CHECK(metric->length.millimetres() == Approx(1200));
  CHECK(metric->width.millimetres() == Approx(600));
  CHECK(metric->thickness.millimetres() == Approx(30));
  for (const std::string text : {"1.2x0.6x0.03m",
                                 "120 x 60 x 3 cm",
                                 "1200mm x 60cm x 0.03m",
                                 "1200×600×30mm",
                                 "1,2X0,6X0,03m"}) {
    INFO(text);
    const auto same = parse_dimensions(text);
    REQUIRE(same);
    CHECK(same->length.millimetres() == Approx(1200));
    CHECK(same->width.millimetres() == Approx(600));
    CHECK(same->thickness.millimetres() == Approx(30));
  }
  // EVIDENCE: nist_sp811 B.8: an inch is 25.4 mm
  const auto us = parse_dimensions("48x23 1/2x1.25in");
  REQUIRE(us);
  CHECK(us->length.millimetres() == Approx(1219.2));
  CHECK(us->width.millimetres() == Approx(596.9));
  CHECK(us->thickness.millimetres() == Approx(31.75));
  CHECK(parse_dimensions("4ft x 2ft x 1-1/4in")->thickness.millimetres() == Approx(31.75));
}

TEST_CASE("A size that is not three lengths is refused", "[base]") {
  for (const std::string text : {"",
                                 "1200x600mm",
                                 "1200x600x30",
                                 "1200x600x30x1mm",
                                 "1,200x600x30mm",
                                 "1200mmx600x30mm",
                                 "axbxcmm",
                                 "1200x600x30yd",
                                 "-1200x600x30mm",
                                 "1200x600x1/0in",
                                 "xx",
                                 "1200x6e2x30mm"}) {
    INFO(text);
    const auto size = parse_dimensions(text);
    REQUIRE_FALSE(size);
    CHECK(size.error().code == ErrorCode::kUsage);
    CHECK_THAT(size.error().message, Catch::Contains("1200x600x30mm"));
  }
  for (const std::string text :
       {"0x600x30mm", "30000x600x30mm", "1200x600x400mm", "1200x600x0mm"}) {
    INFO(text);
    const auto size = parse_dimensions(text);
    REQUIRE_FALSE(size);
    CHECK(size.error().code == ErrorCode::kOutOfRange);
  }
}

TEST_CASE("Numbers are read as makers type them", "[base]") {
  CHECK(parse_measure("600") == 600.0);
  CHECK(parse_measure(" 600,5 ") == 600.5);
  CHECK(parse_measure("23 1/2") == 23.5);
  CHECK(parse_measure("23-1/2") == 23.5);
  CHECK(parse_measure("3/4") == 0.75);
  for (const std::string text :
       {"", "x", "1,200", "1/0", "-1/2", "1.5 1/2", "1 2", "1/2/3", "--3"}) {
    INFO(text);
    CHECK_FALSE(parse_measure(text));
  }
}
