#include "cli/watch_events.h"

#include <catch2/catch.hpp>

using namespace coatwright;

namespace {

using std::chrono::minutes;

constexpr Time kNoon{std::chrono::seconds(1'800'000'000)};  // Fri 15 January 2027 08:00 UTC

StepNow coat(Readiness readiness, std::optional<Time> closes_at = std::nullopt) {
  StepNow step;
  step.kind = StepKind::kApply;
  step.product_title = "Dewaxed shellac";
  step.method = "brush";
  step.coat = 2;
  step.readiness = readiness;
  step.closes_at = closes_at;
  return step;
}

std::vector<PieceNow> bench(const StepNow& step) {
  return {{"stool", {step}, {}, {}}};
}

std::vector<std::string> events(const StepNow& before, const StepNow& after) {
  const auto earlier = bench(before);
  return watch_events(&earlier, kNoon, bench(after), kNoon + minutes(1), Zone::find("UTC").value());
}

}  // namespace

TEST_CASE("The watch rings once when a step opens", "[cli]") {
  const auto opened = events(coat(Readiness::kNotYet), coat(Readiness::kMayBeDone));
  REQUIRE(opened.size() == 1);
  CHECK(opened.front().starts_with("May be done now: "));
  CHECK(opened.front().ends_with("(stool)"));
  CHECK(events(coat(Readiness::kMayBeDone), coat(Readiness::kMayBeDone)).empty());
  CHECK(events(coat(Readiness::kMayBeDone), coat(Readiness::kNotYet)).empty());
}

TEST_CASE("The watch rings when the last hour of a window begins", "[cli]") {
  const Time closes = kNoon + minutes(61);
  const auto soon =
      events(coat(Readiness::kMayBeDone, closes), coat(Readiness::kMayBeDone, closes));
  REQUIRE(soon.size() == 1);
  CHECK(soon.front().starts_with("Closes at 09:01: "));
  const Time later = kNoon + minutes(62);
  CHECK(events(coat(Readiness::kMayBeDone, later), coat(Readiness::kMayBeDone, later)).empty());
}

TEST_CASE("At its first look the watch rings for what is about to close alone", "[cli]") {
  const Zone utc = Zone::find("UTC").value();
  CHECK(watch_events(nullptr, kNoon, bench(coat(Readiness::kMayBeDone)), kNoon, utc).empty());
  const auto closing = bench(coat(Readiness::kMayBeDone, kNoon + minutes(20)));
  CHECK(watch_events(nullptr, kNoon, closing, kNoon, utc).size() == 1);
}
