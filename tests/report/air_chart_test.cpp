#include "report/air_chart.h"

#include <algorithm>
#include <sstream>

#include <catch2/catch.hpp>

namespace coatwright {
namespace {

using std::chrono::hours;

std::vector<std::string> lines_of(const std::string& text) {
  std::istringstream stream(text);
  std::vector<std::string> lines;
  for (std::string line; std::getline(stream, line);) {
    lines.push_back(line);
  }
  return lines;
}

/// Air that warms by a degree an hour from 10 C, with its dew point always at 5 C.
std::vector<AirAt> warming(int count) {
  std::vector<AirAt> points;
  for (int i = 0; i < count; ++i) {
    points.push_back({Time{} + hours(i),
                      {Temperature::from_celsius(10.0 + i),
                       RelativeHumidity::from_percent(50.0),
                       Temperature::from_celsius(5.0),
                       AirOrigin::kLogger}});
  }
  return points;
}

TEST_CASE("A chart draws each value on the line of its label", "[report]") {
  const Zone zone = Zone::find("UTC").value();
  const auto lines = lines_of(air_chart(warming(3), Time{} - hours(1), zone, UnitSystem::kMetric));
  REQUIRE(lines.size() == 11);  // nine lines of air, the scale, the clock
  CHECK(lines[1] == "   12 C |  *");
  CHECK(lines[2] == "   11 C | *");
  CHECK(lines[3] == "   10 C |*");
  CHECK(lines[8] == "    5 C |ooo");
  CHECK(lines[9] == "        +---");
  CHECK(lines[10] == "         00:00");
}

TEST_CASE("A chart marks the column of now where it lies inside", "[report]") {
  const Zone zone = Zone::find("UTC").value();
  const auto inside = air_chart(
      warming(3), Time{} + hours(1) + std::chrono::minutes(20), zone, UnitSystem::kMetric);
  CHECK(lines_of(inside)[0] == "   13 C | |");
  const auto outside = air_chart(warming(3), Time{} + hours(3), zone, UnitSystem::kMetric);
  CHECK(outside.find("| |") == std::string::npos);
}

TEST_CASE("A chart of two days and of a heat wave stays within the page", "[report]") {
  const Zone zone = Zone::find("UTC").value();
  for (const UnitSystem units : {UnitSystem::kMetric, UnitSystem::kUs}) {
    const auto lines = lines_of(air_chart(warming(49), Time{}, zone, units));
    REQUIRE(lines.size() == 11);
    std::size_t stars = 0;
    for (const std::string& line : lines) {
      CHECK(line.size() <= 80);
      stars += static_cast<std::size_t>(std::count(line.begin(), line.end(), '*'));
    }
    CHECK(stars == 49);  // no value is lost
  }
}

}  // namespace
}  // namespace coatwright
