// When a coat's vapour leaves it, against integrals of our own over the drying clock's rate in
// steps of ten seconds.
#include "plan/coat_release.h"

#include <cmath>
#include <vector>

#include <catch2/catch.hpp>

#include "plan/own_drying.h"
#include "plan/plan_requests.h"

using namespace coatwright;
using namespace asked;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

namespace {

const Time kNine = at("2027-03-08T09:00:00-05:00");
const Interval kApplied = {kNine, kNine + minutes(12)};

const Product& lacquer() {
  return **book().product("nitrocellulose-lacquer-spray");
}

LaidCoat coat_of(const Product& product) {
  LaidCoat coat;
  coat.product = &product;
  coat.begun = kApplied.start;
  coat.ended = kApplied.end;
  return coat;
}

std::vector<ReleasePoint> release(const AirRecord& air, double deviate, double on_the_wood = 0.6) {
  DryingClocks clocks(air, kNine - hours(3));
  return release_of(coat_of(lacquer()), kApplied, on_the_wood, clocks, deviate);
}

/// When a stage of one phase is reached, step by step.
Time stepped(const AirRecord& air, Stage stage, double probability) {
  const DryingStage& found = *lacquer().stage(stage);
  REQUIRE(found.timing.phases.size() == 1);
  const Phase& phase = found.timing.phases.front();
  const double gate = lacquer().limits.temperature_min->value.kelvin();
  double left =
      own::quantile(phase.duration.low().hours(), phase.duration.high().hours(), probability);
  Time at = kApplied.end;
  for (; left > 0.0; at += seconds(10)) {
    const AirState state = air.at(at + seconds(5));
    if (state.temperature.kelvin() >= gate) {
      left -= own::rate(phase.law, state.temperature.kelvin(), state.humidity.fraction()) / 360.0;
    }
  }
  return at;
}

double share_at(const std::vector<ReleasePoint>& points, Time at) {
  for (std::size_t i = 1; i < points.size(); ++i) {
    if (at < points[i].at) {
      const double part = static_cast<double>((at - points[i - 1].at).count()) /
                          static_cast<double>((points[i].at - points[i - 1].at).count());
      return points[i - 1].share + part * (points[i].share - points[i - 1].share);
    }
  }
  return points.back().share;
}

void check_rises(const std::vector<ReleasePoint>& points) {
  CHECK(points.front().at == kApplied.start);
  CHECK(points.front().share == 0.0);
  CHECK(points.back().share == Approx(1.0));
  for (std::size_t i = 1; i < points.size(); ++i) {
    CHECK(points[i].at > points[i - 1].at);
    CHECK(points[i].share >= points[i - 1].share);
    CHECK(points[i].share <= 1.0 + 1e-12);
  }
}

const AirRecord& cold() {
  static const AirRecord kCold = usual_air("6:00 16.5C 55%; 15:00 18C 50%", zone());
  return kCold;
}

const AirRecord& warm() {
  static const AirRecord kWarm = usual_air("6:00 24C 45%; 15:00 30C 40%", zone());
  return kWarm;
}

}  // namespace

// EVIDENCE: own integration of poling2001's vapour pressure in steps of 10 s, through own_drying.h
TEST_CASE("A film is set and done when stepping through its rate says so, in cold and warm air",
          "[plan]") {
  for (const AirRecord* air : {&cold(), &warm()}) {
    for (const double probability : {0.1, 0.9}) {
      INFO((air == &cold() ? "cold" : "warm") << " at " << probability);
      const auto points = release(*air, own::normal_deviate(probability));
      check_rises(points);
      const Time set = stepped(*air, Stage::kDustFree, probability);
      const Time done = stepped(*air, Stage::kPrintFree, probability);
      CHECK(std::chrono::abs(points[2].at - set) <= seconds(20));
      CHECK(std::chrono::abs(points.back().at - done) <= seconds(120));
      // Four fifths of the film's solvent, and all of the mist, are out when it is set.
      CHECK(points[2].share == Approx(0.4 + 0.6 * 0.8));
    }
  }
}

TEST_CASE("In warm air, and of a quick coat, more is out at any time", "[plan]") {
  const double deviate = own::normal_deviate(0.9);
  const auto quick = release(warm(), -deviate);
  const auto slow = release(warm(), deviate);
  const auto slow_in_cold = release(cold(), deviate);
  for (int minute = 13; minute < 60 * 24 * 4; minute = minute * 5 / 4) {
    INFO(minute);
    const Time at = kNine + minutes(minute);
    CHECK(share_at(quick, at) >= share_at(slow, at));
    CHECK(share_at(slow, at) >= share_at(slow_in_cold, at));
  }
  CHECK(quick.back().at < slow.back().at);
  CHECK(slow.back().at < slow_in_cold.back().at);
}

TEST_CASE("Of what is not sprayed nothing leaves before it lies there; mist leaves at once",
          "[plan]") {
  // In cold air the film is set half an hour after its last stroke or so; a coat that is 6 minutes
  // old on average has lost little of its own.
  const auto brushed = release(cold(), own::normal_deviate(0.9), 1.0);
  const auto sprayed = release(cold(), own::normal_deviate(0.9), 0.6);
  const double set_after = static_cast<double>((brushed[2].at - brushed[1].at).count());
  CHECK(brushed[1].share == Approx(0.8 * std::min(1.0, 360.0 / set_after)));
  CHECK(sprayed[1].share == Approx(0.4 + 0.6 * brushed[1].share));
  CHECK(share_at(sprayed, kApplied.end) > share_at(brushed, kApplied.end));
}

// Consistency check: of the tail an e^-3 is left at its end, which counts as all of it.
TEST_CASE("What is left in a set film leaves ever slower", "[plan]") {
  const auto points = release(warm(), 0.0, 1.0);
  const Time set = points[2].at;
  const auto tail = points.back().at - set;
  double before = 1.0;
  for (const double part : {0.1, 0.35, 0.5, 0.75, 1.0}) {
    const Time at = set + seconds(std::llround(static_cast<double>(tail.count()) * part));
    const double left = 1.0 - share_at(points, at);
    const double expected = 0.2 * (std::exp(-3.0 * part) - std::exp(-3.0)) / (1.0 - std::exp(-3.0));
    CHECK(left == Approx(expected).margin(1e-3));
    CHECK(left < before);
    before = left;
  }
}

TEST_CASE("In air too cold to dry at all the vapour counts as out after two weeks", "[plan]") {
  const AirRecord freezing = constant_air(4.0, 70.0, zone());
  const auto points = release(freezing, own::normal_deviate(0.9));
  check_rises(points);
  CHECK(points[2].at == kApplied.end + hours(24 * 7));
  CHECK(points.back().at == kApplied.end + hours(24 * 14));
}

TEST_CASE("A coat of no time at all, and a product without stages, still have a course", "[plan]") {
  DryingClocks clocks(warm(), kNine - hours(3));
  Product plain;
  LaidCoat coat = coat_of(plain);
  coat.ended = kNine;
  const auto points = release_of(coat, {kNine, kNine}, 1.0, clocks, 0.0);
  check_rises(points);
  CHECK(points.back().at <= kNine + minutes(5));
}
