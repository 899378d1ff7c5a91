#include "base/vapour_text.h"

#include <cmath>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>

using namespace coatwright;
using Catch::Matchers::Contains;

namespace {

double cubic_metres(const std::string& room) {
  const auto volume = parse_room(room);
  if (!volume) {
    FAIL(volume.error().text());
  }
  return volume->cubic_metres();
}

double cubic_metres_per_hour(const std::string& flow) {
  const auto parsed = parse_air_flow(flow);
  if (!parsed) {
    FAIL(parsed.error().text());
  }
  return parsed->cubic_metres_per_hour();
}

std::string shown_metric(double cubic_metres_per_hour) {
  return show_air_flow(AirFlow::from_cubic_metres_per_hour(cubic_metres_per_hour),
                       UnitSystem::kMetric);
}

}  // namespace

// EVIDENCE: nist_sp811 B.8: 1 ft3 is 2.831685 E-02 m3, 1 ft3/min is 4.719474 E-04 m3/s
TEST_CASE("Cubic feet and cubic feet in a minute are what the tables of units say", "[base]") {
  CHECK(AirVolume::from_cubic_feet(1.0).cubic_metres() == Approx(2.831685e-2).epsilon(1e-6));
  CHECK(AirFlow::from_cfm(1.0).cubic_metres_per_second() == Approx(4.719474e-4).epsilon(1e-6));
  CHECK(AirFlow::from_cubic_metres_per_hour(3600.0).cubic_metres_per_second() == Approx(1.0));
  CHECK(AirVolume::from_cubic_metres(90.0).cubic_feet() == Approx(90.0 / 2.831685e-2));
  CHECK(AirFlow::from_cubic_metres_per_second(1.0).cfm() == Approx(1.0 / 4.719474e-4));
}

TEST_CASE("A room is length by width by height in metres or feet", "[base]") {
  CHECK(cubic_metres("6x5x3m") == Approx(90.0));
  CHECK(cubic_metres("6.5x4x2.75m") == Approx(71.5));
  CHECK(cubic_metres("6000x5000x3000mm") == Approx(90.0));
  CHECK(cubic_metres("600x500x300cm") == Approx(90.0));
  CHECK(cubic_metres("20x16x10ft") == Approx(3200.0 * 2.831685e-2));
}

TEST_CASE("A room that is none is refused, with how to write it", "[base]") {
  for (const char* wrong : {"", "6x5", "6x5x3", "6x5x3x2m", "90m3", "none", "6x5x3kg", "axbxcm"}) {
    INFO(wrong);
    const auto room = parse_room(wrong);
    REQUIRE_FALSE(room);
    CHECK(room.error().code == ErrorCode::kUsage);
    CHECK_THAT(room.error().text(), Contains("6x5x3m") && Contains("20x16x10ft"));
  }
}

TEST_CASE("A room too small or too large names what is allowed", "[base]") {
  for (const char* wrong :
       {"0.9x5x3m", "6x0.9x3m", "6x5x0.9m", "101x5x3m", "6x101x3m", "6x5x21m"}) {
    INFO(wrong);
    const auto room = parse_room(wrong);
    REQUIRE_FALSE(room);
    CHECK(room.error().code == ErrorCode::kOutOfRange);
    CHECK_THAT(room.error().text(), Contains(wrong) && Contains("20m"));
  }
  CHECK(cubic_metres("1x1x1m") == Approx(1.0));
  CHECK(cubic_metres("100x100x20m") == Approx(200000.0));
}

TEST_CASE("A flow of air is read in the units that fans are sold by", "[base]") {
  CHECK(cubic_metres_per_hour("850m3/h") == Approx(850.0));
  CHECK(cubic_metres_per_hour("850 m3/h") == Approx(850.0));
  CHECK(cubic_metres_per_hour("850m³/h") == Approx(850.0));
  CHECK(cubic_metres_per_hour("0.25m3/s") == Approx(900.0));
  CHECK(cubic_metres_per_hour("0.25m³/s") == Approx(900.0));
  CHECK(cubic_metres_per_hour("500cfm") == Approx(500.0 * 4.719474e-4 * 3600.0));
  CHECK(cubic_metres_per_hour("500ft3/min") == Approx(cubic_metres_per_hour("500cfm")));
}

TEST_CASE("A flow of air that is none is refused, with how to write it", "[base]") {
  for (const char* wrong :
       {"", "850", "m3/h", "850m3", "850l/s", "none", "fastcfm", "850m3/hcfm"}) {
    INFO(wrong);
    const auto flow = parse_air_flow(wrong);
    REQUIRE_FALSE(flow);
    CHECK(flow.error().code == ErrorCode::kUsage);
    CHECK_THAT(flow.error().text(), Contains("850m3/h") && Contains("500cfm"));
  }
}

TEST_CASE("A flow of air too small or too large names what is allowed", "[base]") {
  for (const char* wrong : {"9.9m3/h", "200001m3/h", "5cfm", "120000cfm", "60m3/s", "0cfm"}) {
    INFO(wrong);
    const auto flow = parse_air_flow(wrong);
    REQUIRE_FALSE(flow);
    CHECK(flow.error().code == ErrorCode::kOutOfRange);
    CHECK_THAT(flow.error().text(), Contains(wrong) && Contains("200000m3/h"));
  }
  CHECK(cubic_metres_per_hour("10m3/h") == Approx(10.0));
  CHECK(cubic_metres_per_hour("200000m3/h") == Approx(200000.0));
}

TEST_CASE("Flows and volumes are shown in the shop's units", "[base]") {
  const AirFlow flow = AirFlow::from_cubic_metres_per_hour(850.0);
  CHECK(show_air_flow(flow, UnitSystem::kMetric) == "850 m3/h");
  CHECK(show_air_flow(flow, UnitSystem::kUs) == "500 cfm");  // 500.3
  const AirVolume room = AirVolume::from_cubic_metres(90.0);
  CHECK(show_air_volume(room, UnitSystem::kMetric) == "90.0 m3");
  CHECK(show_air_volume(room, UnitSystem::kUs) == "3178 ft3");
}

TEST_CASE("No more digits are shown than are known, at any size", "[base]") {
  const std::vector<std::pair<double, std::string>> shown = {{0.0, "0"},
                                                             {1.23e-8, "0.000000012"},
                                                             {0.00123, "0.0012"},
                                                             {0.0123, "0.012"},
                                                             {0.123, "0.12"},
                                                             {1.23, "1.23"},
                                                             {12.3, "12.3"},
                                                             {123.0, "123"},
                                                             {1234.0, "1234"},
                                                             {0.0999, "0.10"},
                                                             {0.996, "1.0"},
                                                             {9.996, "10.0"},
                                                             {99.96, "100"},
                                                             {0.001, "0.0010"},
                                                             {0.1, "0.10"},
                                                             {1.0, "1.00"},
                                                             {10.0, "10.0"},
                                                             {100.0, "100"}};
  for (const auto& [value, text] : shown) {
    CHECK(shown_metric(value) == text + " m3/h");
  }
}

TEST_CASE("What is shown is within half of its last digit, and never nothing", "[base]") {
  for (double value = 3e-9; value < 1e5; value *= 1.0937) {
    const double read = std::stod(shown_metric(value));
    INFO(value);
    CHECK(read > 0.0);
    CHECK(std::abs(read - value) <= value * (value < 1.0 ? 0.0501 : 0.00501));
  }
}
