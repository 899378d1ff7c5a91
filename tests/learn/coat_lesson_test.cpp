#include "learn/coat_lesson.h"

#include <cmath>

#include <catch2/catch.hpp>

#include "recipe/recipe_book.h"

using namespace coatwright;

namespace {

constexpr Time kStart{std::chrono::seconds(1'800'000'000)};

/// A shop at the reference all day: hours on the clock are hours at the reference.
const AirRecord& reference_air() {
  static const AirRecord kAir(
      {}, UsualDay::constant(kReferenceTemperature, kReferenceHumidity), *Zone::find("UTC"));
  return kAir;
}

Time after(double hours) {
  return kStart + std::chrono::seconds(std::llround(hours * 3600));
}

TouchTest test(std::int64_t id, double hours, Stage stage, bool reached) {
  return {id, after(hours), stage, reached};
}

CoatLesson lesson(const std::string& name, std::vector<TouchTest> tests) {
  const RecipeBook book;
  TouchedCoat touched;
  touched.coat.product = *book.product(name);
  touched.coat.begun = touched.coat.ended = kStart;
  touched.tests = std::move(tests);
  DryingClocks clocks(reference_air(), kStart);
  return lesson_of(touched, clocks);
}

/// By hand: where an hour lies in a range that runs from the 10th to the 90th percentile.
double deviate(double hours, double low, double high) {
  const double spread = std::log(high / low) / (2 * 1.2815515655);
  return (std::log(hours) - 0.5 * std::log(low * high)) / spread;
}

}  // namespace

// The varnish's recipe: sandable 6 to 24 h and tack-free 1.5 to 4 h by oxidation, dust-free 1 to
// 3 h by evaporation.
TEST_CASE("The touches of one coat make one interval for each mechanism", "[learn]") {
  const CoatLesson taught = lesson("oil-modified-varnish",
                                   {test(1, 0.8, Stage::kDustFree, false),
                                    test(2, 9, Stage::kSandable, false),
                                    test(3, 14, Stage::kSandable, false),
                                    test(4, 20, Stage::kSandable, true)});
  CHECK(taught.left_aside.empty());
  REQUIRE(taught.intervals.size() == 2);
  for (const CoatInterval& interval : taught.intervals) {
    if (interval.mechanism == Mechanism::kOxidation) {
      CHECK(interval.above == Approx(deviate(14, 6, 24)).margin(1e-3));
      CHECK(interval.at_most == Approx(deviate(20, 6, 24)).margin(1e-3));
    } else {
      CHECK(interval.mechanism == Mechanism::kEvaporation);
      CHECK(interval.above == Approx(deviate(0.8, 1, 3)).margin(1e-3));
      CHECK(interval.at_most == kWidestDeviate);
    }
  }
}

TEST_CASE("A stage that the recipe has not is told by those that come with it", "[learn]") {
  // Dry-hard is not in the varnish's recipe: what is hard is tack-free and dust-free.
  const CoatLesson taught = lesson("oil-modified-varnish", {test(1, 3, Stage::kDryHard, true)});
  REQUIRE(taught.intervals.size() == 2);
  for (const CoatInterval& interval : taught.intervals) {
    const bool oxidises = interval.mechanism == Mechanism::kOxidation;
    CHECK(interval.above == -kWidestDeviate);
    CHECK(interval.at_most ==
          Approx(oxidises ? deviate(3, 1.5, 4) : deviate(3, 1, 3)).margin(1e-3));
  }
}

TEST_CASE("Tests that contradict each other teach nothing and are named", "[learn]") {
  const CoatLesson taught =
      lesson("oil-modified-varnish",
             {test(7, 2, Stage::kSandable, true), test(8, 6, Stage::kTackFree, false)});
  CHECK(taught.intervals.empty());
  CHECK_FALSE(taught.left_aside.empty());
  REQUIRE(taught.contradictions.size() == 1);
  CHECK(taught.contradictions.front() == TouchContradiction{7, 8});
}

TEST_CASE("Stages of one mechanism that disagree give the stretch between them", "[learn]") {
  // Tack-free late in its range, and sandable early in its own: neither test is wrong.
  const CoatLesson taught =
      lesson("oil-modified-varnish",
             {test(1, 3.5, Stage::kTackFree, false), test(2, 7, Stage::kSandable, true)});
  REQUIRE(taught.intervals.size() == 1);
  CHECK(taught.intervals.front().above == Approx(deviate(7, 6, 24)).margin(1e-3));
  CHECK(taught.intervals.front().at_most == Approx(deviate(3.5, 1.5, 4)).margin(1e-3));
}
