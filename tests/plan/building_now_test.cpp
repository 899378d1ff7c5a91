// What may be done now of the work that is no finishing, against an integration of our own.
#include "plan/building_now.h"

#include <catch2/catch.hpp>

#include "plan/own_drying.h"
#include "plan/random_shops.h"

using namespace coatwright;
using namespace asked;
using Catch::Matchers::Contains;
using std::chrono::hours;
using std::chrono::minutes;

namespace {

const Time kNow = at("2027-03-05T12:00:00-05:00");

/// A bench of a seat and a frame: the seat is glued up and fitted before its finish, both are
/// screwed together after it.
NowRequest bench() {
  NowRequest request;
  request.now = kNow;
  for (const std::string name : {"bench, seat", "bench, frame"}) {
    PieceRequest piece = part(name, "hardwax-oil", 0.4).finish;
    piece.name = name;
    request.pieces.push_back(piece);
  }
  BuildWork glue = build(StepKind::kGlue, {0}, 10, true);
  glue.name = "glue the seat up";
  glue.glue = &some_glue();
  BuildWork screw = build(StepKind::kAssemble, {0, 1}, 20);
  screw.name = "screw the seat down";
  request.building = {{"bench", {0, 1}, {glue, build(StepKind::kDryFit, {0}, 10, true), screw}}};
  return request;
}

std::vector<PieceNow> look(const NowRequest& request, const AirRecord& air) {
  auto answer = what_now(request, book(), air);
  if (!answer) {
    FAIL(answer.error().text());
  }
  return std::move(*answer);
}

const PieceNow& named(const std::vector<PieceNow>& pieces, const std::string& name) {
  for (const PieceNow& piece : pieces) {
    if (piece.piece == name) {
      return piece;
    }
  }
  FAIL("no " << name);
  return pieces.front();
}

const StepNow& only(const PieceNow& piece, StepKind kind) {
  const StepNow* found = nullptr;
  for (const StepNow& step : piece.steps) {
    if (step.kind == kind) {
      REQUIRE(found == nullptr);
      found = &step;
    }
  }
  INFO(piece.piece << ": " << name_of(kind));
  REQUIRE(found != nullptr);
  return *found;
}

/// When a glue has earned its hours, by our own walk over the minutes.
Time reached(const AirRecord& air, Time since, double reference_hours) {
  own::Walk walk(air, since - hours(4));
  const auto at = walk.reached(
      some_glue().law, some_glue().at_least.kelvin(), since, reference_hours, since + hours(200));
  REQUIRE(at);
  return *at;
}

bool is_near(const std::optional<Time>& at, Time expected) {
  return at && std::chrono::abs(*at - expected) < minutes(2);
}

}  // namespace

TEST_CASE("A part that is to be glued up first is not sanded yet", "[plan]") {
  const auto pieces = look(bench(), constant_air(20, 50, zone()));
  REQUIRE(pieces.size() == 3);
  const PieceNow& whole = pieces.front();
  CHECK(whole.piece == "bench");
  REQUIRE(whole.steps.size() == 1);
  CHECK(whole.steps[0].work == "glue the seat up");
  CHECK(whole.steps[0].readiness == Readiness::kMayBeDone);
  const StepNow& sanding = only(named(pieces, "bench, seat"), StepKind::kSand);
  CHECK(sanding.readiness == Readiness::kNotYet);
  CHECK_THAT(sanding.first, Contains("glue the seat up"));
  CHECK(only(named(pieces, "bench, frame"), StepKind::kSand).readiness == Readiness::kMayBeDone);
}

TEST_CASE("Clamps are on until the glue has set, and the line is sanded when it is dry", "[plan]") {
  const AirRecord air = constant_air(16, 60, zone());
  NowRequest request = bench();
  request.building[0].works[0].done_at = kNow - minutes(30);
  const auto pieces = look(request, air);
  const double needed = own::quantile(40.0 / 60.0, 2.0, 0.9);
  const Time off = reached(air, kNow - minutes(30), needed);
  const StepNow& clamps = only(pieces.front(), StepKind::kWait);
  CHECK(clamps.readiness == Readiness::kNotYet);
  CHECK(is_near(clamps.opens_at, off));
  CHECK_THAT(clamps.work, Contains("glue the seat up"));
  const StepNow& fitting = only(pieces.front(), StepKind::kDryFit);
  CHECK(is_near(fitting.opens_at, off));
  const StepNow& sanding = only(named(pieces, "bench, seat"), StepKind::kSand);
  CHECK(is_near(sanding.opens_at, reached(air, kNow - minutes(30), 9.0)));
  CHECK_THAT(sanding.reason, Contains("white glue") && Contains("lost its water"));
  CHECK(only(named(pieces, "bench, frame"), StepKind::kSand).readiness == Readiness::kMayBeDone);

  // Five hours after it is out of the clamps, and may be fitted, but not sanded.
  request.building[0].works[0].done_at = kNow - hours(5);
  const auto later = look(request, air);
  REQUIRE(later.front().steps.size() == 1);
  CHECK(later.front().steps[0].kind == StepKind::kDryFit);
  CHECK(later.front().steps[0].readiness == Readiness::kMayBeDone);
  request.building[0].works[1].done_at = kNow;
  CHECK(only(named(look(request, air), "bench, seat"), StepKind::kSand).readiness ==
        Readiness::kNotYet);
  request.building[0].works[0].done_at = kNow - hours(48);
  CHECK(only(named(look(request, air), "bench, seat"), StepKind::kSand).readiness ==
        Readiness::kMayBeDone);
}

TEST_CASE("Glue waits for air that it sets in", "[plan]") {
  // 9 C is the least that this glue sets in.
  const UsualDay day = *UsualDay::parse("6:00 6C 60%; 14:00 18C 50%; 22:00 14C 55%");
  const AirRecord air({}, day, zone());
  NowRequest request = bench();
  request.now = at("2027-03-05T07:00:00-05:00");
  const auto pieces = look(request, air);
  const StepNow& glue = only(pieces.front(), StepKind::kGlue);
  CHECK(glue.readiness == Readiness::kNotYet);
  CHECK_THAT(glue.reason, Contains("7.5 C (46 F), below the 9.0 C (48 F) that white glue needs"));
  // The air rises by 1.5 C an hour from 6 C at 6:00.
  REQUIRE(glue.opens_at);
  CHECK(*glue.opens_at - at("2027-03-05T08:00:00-05:00") >= minutes(0));
  CHECK(*glue.opens_at - at("2027-03-05T08:00:00-05:00") <= minutes(10));
}

TEST_CASE("What joins the parts comes after their finish, and can be asked about before",
          "[plan]") {
  const AirRecord air = constant_air(20, 50, zone());
  NowRequest request = bench();
  request.building[0].works.erase(request.building[0].works.begin(),
                                  request.building[0].works.begin() + 2);
  CHECK(look(request, air).size() == 2);
  request.asked = AskedStep{StepKind::kAssemble, "", nullptr};
  const auto asked_early = look(request, air);
  REQUIRE(asked_early.front().steps.size() == 1);
  CHECK(asked_early.front().steps[0].readiness == Readiness::kNotYet);
  CHECK_THAT(asked_early.front().steps[0].first, Contains("the finish of bench, seat"));
  CHECK(asked_early.size() == 1);  // the parts have no answer of their own
}
