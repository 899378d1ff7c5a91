#include "plan/bench_session.h"

#include <catch2/catch.hpp>

#include "plan/plan_requests.h"
#include "plan/session_words.h"

using namespace coatwright;
using namespace asked;
using std::chrono::minutes;

namespace {

WorkingTime minutes_of(double fixed, double per_square_metre) {
  return {fixed, per_square_metre, per_square_metre, "judgement"};
}

/// Round figures without a spread, to reckon by hand.
const WorkingTimes kTimes = {
    {"sand-P120", minutes_of(0, 10)},
    {"abrade", minutes_of(0, 4)},
    {"clean", minutes_of(0, 2)},
    {"mix", minutes_of(5, 0)},
    {"wipe-stain-apply", minutes_of(0, 3)},
    {"wipe-stain-off", minutes_of(0, 2)},
    {"brush", minutes_of(0, 6)},
    {"brush-waterborne", minutes_of(0, 5)},
    {"spray", minutes_of(0, 2)},
    {"gun-set-up", minutes_of(10, 0)},
    {"gun-clean-up", minutes_of(15, 0)},
    {"brush-clean", minutes_of(10, 0)},
    {"rags", minutes_of(2, 0)},
    {"flip", minutes_of(2, 0)},
};

/// A coat on a piece of this area, which keeps what its work item points to.
struct Bench {
  Bench(const std::string& product, Method method, double square_metres)
      : step(coats(product, method, 1)) {
    request.piece.area = Area::from_square_metres(square_metres);
    work.kind = WorkItem::Kind::kCoat;
    work.step = &step;
    work.product = *book().product(product);
    work.faces = {0};
  }
  [[nodiscard]] BenchSession session(const std::string& abrade_grit, int wipe_closes) const {
    return SessionPlanner(request, kTimes)
        .coat(work, abrade_grit, {minutes(wipe_closes), {}})
        .value();
  }

  PlanRequest request;
  ScheduleStep step;
  WorkItem work;
};

}  // namespace

TEST_CASE("A stain soaks from its last stroke to its first wipe as its window asks", "[plan]") {
  // 1 m2: on in 3 min, off in 2; the last spot soaks 5 min when wiping starts 6 min after the
  // start.
  const BenchSession session = Bench("oil-wiping-stain", Method::kWipe, 1.0).session("", 15);
  CHECK(in_words(session) == "clean 0-2, mix 2-7, apply 7-10, wipe 13-15, rags 15-17");
  CHECK(session.apply_offset == minutes(7));
  CHECK(session.wet_end == minutes(15));
  CHECK(session.length == minutes(17));
}

TEST_CASE("What cannot be wiped in time is done in sections", "[plan]") {
  // 6 m2 at once: on in 18 min, the first spot would wait 18; halves: on in 9, off in 6.
  const BenchSession halves = Bench("oil-wiping-stain", Method::kWipe, 6.0).session("", 15);
  CHECK(in_words(halves) ==
        "clean 0-12, mix 12-17, apply 17-26, wipe 26-32, apply 32-41, wipe 41-47, rags 47-49");
  // At 18 minutes the last spot would be wiped as its window closes; with 19 it goes on at once.
  CHECK(in_words(Bench("oil-wiping-stain", Method::kWipe, 6.0).session("", 18)) ==
        "clean 0-12, mix 12-17, apply 17-26, wipe 26-32, apply 32-41, wipe 41-47, rags 47-49");
  CHECK(in_words(Bench("oil-wiping-stain", Method::kWipe, 6.0).session("", 19)) ==
        "clean 0-12, mix 12-17, apply 17-35, wipe 35-47, rags 47-49");
}

TEST_CASE("A window shorter than the soaking time cannot be kept", "[plan]") {
  const Bench bench("oil-wiping-stain", Method::kWipe, 1.0);
  const auto none = SessionPlanner(bench.request, kTimes).coat(bench.work, "", {minutes(4), {}});
  REQUIRE_FALSE(none);
  CHECK(none.error().code == ErrorCode::kNo);
}

TEST_CASE("The brush waits until the dust of abrading has settled for 15 minutes", "[plan]") {
  // 1 m2: abraded 0-4, cleaned 4-6, mixed 6-11; settled at 4 + 15.
  CHECK(in_words(Bench("oil-modified-varnish", Method::kBrush, 1.0).session("P320", 0)) ==
        "abrade 0-4, clean 4-6, mix 6-11, apply 19-25, rags 25-27, clean 27-37");
  // 8 m2: cleaning takes longer than the dust.
  CHECK(in_words(Bench("oil-modified-varnish", Method::kBrush, 8.0).session("P320", 0)) ==
        "abrade 0-32, clean 32-48, mix 48-53, apply 53-101, rags 101-103, clean 103-113");
}

TEST_CASE("A sprayed coat sets up the gun and cleans it, without rags", "[plan]") {
  CHECK(in_words(Bench("nitrocellulose-lacquer-spray", Method::kSpray, 2.0).session("", 0)) ==
        "clean 0-4, mix 4-14, apply 14-18, clean_gun 18-33");
}

TEST_CASE("Both faces in one session take twice the time of one", "[plan]") {
  Bench bench("waterborne-clear", Method::kBrush, 2.0);
  bench.work.faces = {0, 1};
  CHECK(in_words(bench.session("", 0)) == "clean 0-8, mix 8-13, apply 13-33, clean 33-43");
}

// EVIDENCE: common-practice, no source: hard woods are sanded up to 1.4 times as long
TEST_CASE("Hard wood is sanded longer than soft", "[plan]") {
  Bench bench("waterborne-clear", Method::kBrush, 2.0);
  const auto sanding_of = [&](const char* species) {
    bench.request.piece.species = species == nullptr ? nullptr : *book().species(species);
    return SessionPlanner(bench.request, kTimes)
        .single(StepKind::kSand, "sand-P120", bench.work)
        .value()
        .length;
  };
  CHECK(sanding_of(nullptr) == minutes(20));
  CHECK(sanding_of("eastern-white-pine") < minutes(20));
  CHECK(sanding_of("white-oak") > minutes(20));
  CHECK(sanding_of("white-oak") <= minutes(28));
}

TEST_CASE("A missing working time names the operation", "[plan]") {
  const Bench bench("dewaxed-shellac", Method::kPad, 1.0);
  const auto none = SessionPlanner(bench.request, kTimes).coat(bench.work, "", {minutes(0), {}});
  REQUIRE_FALSE(none);
  CHECK(none.error().message.find("'pad'") != std::string::npos);
}
