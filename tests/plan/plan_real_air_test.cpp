// Real air: where the measured series are present, each is read as a maker's file would be and the
// demo weekend is planned in it. EVIDENCE: occupancy_detection (office, with its gap of 29 hours),
// appliances_energy (house, irregular), nycflights13 (airport, hourly, UTC).
#include <fstream>
#include <sstream>

#include <catch2/catch.hpp>

#include "air/logger_file.h"
#include "base/week_hours.h"
#include "plan/planner.h"

using namespace coatwright;
using std::chrono::hours;

namespace {

struct Series {
  const char* file;
  const char* zone;
  AirOrigin origin;
  std::size_t rows;
};

std::optional<std::string> text_of(const char* file) {
  std::ifstream stream(std::string(COATWRIGHT_SOURCE_DIR "/../shared/references/") + file);
  if (!stream) {
    return std::nullopt;
  }
  std::ostringstream text;
  text << stream.rdbuf();
  return text.str();
}

PlanRequest request_in(const LoggerFileContent& content, const Zone& zone, const RecipeBook& book) {
  PlanRequest request;
  request.piece.name = "hall bench";
  request.piece.schedule = *book.schedule("stain-and-wiping-varnish");
  request.piece.area = Area::from_square_metres(1.9);
  request.from = content.entries.front().at + hours(12);
  request.made_at = request.from;
  request.by = request.from + hours(24 * 9);
  request.horizon = request.by + hours(24 * 7);
  request.hours =
      WeekHours::parse("Mon-Sun 8:00-18:00")->between(request.from, request.horizon, zone);
  return request;
}

}  // namespace

TEST_CASE("A piece is planned in each of three measured series", "[plan]") {
  const Series all[] = {{"air_indoor_sample.csv", "Europe/Brussels", AirOrigin::kLogger, 1789},
                        {"air_indoor_house_sample.csv", "Europe/Brussels", AirOrigin::kLogger, 516},
                        {"air_outdoor_sample.csv", "America/New_York", AirOrigin::kOutdoors, 336}};
  const RecipeBook book;
  for (const Series& one : all) {
    const auto text = text_of(one.file);
    if (!text) {
      WARN("skipped: the measured series " << one.file << " is not present");
      continue;
    }
    INFO(one.file);
    const Zone zone = *Zone::find(one.zone);
    const auto content = read_logger_file(*text, one.origin, zone, {});
    REQUIRE(content);
    CHECK(content->entries.size() == one.rows);
    const UsualDay usual =
        UsualDay::constant(Temperature::from_celsius(20), RelativeHumidity::from_percent(45));
    const AirRecord air(content->entries, usual, zone);
    const PlanRequest request = request_in(*content, zone, book);
    const auto plan = make_plan(request, book, air);
    REQUIRE(plan);
    CHECK(plan->complete);
    CHECK(plan->fits);
    bool rests_on_it = false;
    for (const AirKnot& knot : plan->air) {
      rests_on_it = rests_on_it || knot.origin == one.origin;
    }
    CHECK(rests_on_it);
    for (const PlanStep& step : plan->steps) {
      for (const Wait& wait : step.after) {
        CHECK(wait.earned >= wait.needed * (1.0 - 1e-6));
      }
    }
  }
}
