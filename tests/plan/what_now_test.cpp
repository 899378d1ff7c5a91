// What may be done at a moment, against an integration that uses nothing of src/drying.
#include "plan/what_now.h"

#include <catch2/catch.hpp>

#include "plan/own_verdict.h"
#include "plan/plan_requests.h"

using namespace coatwright;
using namespace asked;
using Catch::Matchers::Contains;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

namespace {

constexpr minutes kSlack{1};

const Product& product(const std::string& name) {
  return **book().product(name);
}

/// A piece with its log in the making.
class Piece {
 public:
  explicit Piece(const std::string& schedule,
                 const std::string& name = "tray",
                 Faces faces = Faces::kOne) {
    request_.name = name;
    request_.schedule = *book().schedule(schedule);
    request_.area = Area::from_square_metres(1.0);
    request_.faces = faces;
  }

  Piece& coat(const std::string& name, Time time, std::vector<int> faces = {0}) {
    LoggedWork work;
    work.kind = StepKind::kApply;
    work.product = &product(name);
    work.product_name = name;
    work.faces = std::move(faces);
    work.at = time;
    request_.log.push_back(work);
    return *this;
  }
  Piece& done(StepKind kind, Time time, const std::string& grit = "") {
    LoggedWork work;
    work.kind = kind;
    work.grit = grit;
    work.faces = request_.faces == Faces::kOne ? std::vector{0} : std::vector{0, 1};
    work.at = time;
    request_.log.push_back(work);
    return *this;
  }
  [[nodiscard]] const PieceRequest& request() const { return request_; }

 private:
  PieceRequest request_;
};

std::vector<PieceNow> look(const std::vector<Piece>& pieces,
                           Time now,
                           const AirRecord& air,
                           std::optional<AskedStep> asked = std::nullopt) {
  NowRequest request;
  for (const Piece& piece : pieces) {
    request.pieces.push_back(piece.request());
  }
  request.now = now;
  request.asked = asked;
  auto answer = what_now(request, book(), air);
  if (!answer) {
    FAIL(answer.error().text());
  }
  return std::move(*answer);
}

const StepNow& step_of(const PieceNow& piece, StepKind kind) {
  for (const StepNow& step : piece.steps) {
    if (step.kind == kind) {
      return step;
    }
  }
  FAIL("no step of the kind " << name_of(kind));
  return piece.steps.front();
}

bool has(const PieceNow& piece, StepKind kind) {
  return std::any_of(piece.steps.begin(), piece.steps.end(), [kind](const StepNow& step) {
    return step.kind == kind;
  });
}

bool about(const std::optional<Time>& time, const std::optional<Time>& expected) {
  return time.has_value() == expected.has_value() &&
         (!time || std::chrono::abs(*time - *expected) <= kSlack);
}

const Time kFriday = at("2027-03-05T17:40:00-05:00");

/// Stained and wiped on Friday, rags seen to.
Piece stained(const std::string& name = "tray") {
  Piece piece("stain-and-lacquer", name);
  piece.coat("oil-wiping-stain", kFriday)
      .done(StepKind::kWipe, kFriday + minutes(10))
      .done(StepKind::kRags, kFriday + minutes(12));
  return piece;
}

}  // namespace

TEST_CASE("The next coat opens when an own integration says so, in four airs", "[plan]") {
  const std::vector<AirRecord> airs = {
      constant_air(20, 50, zone()),
      constant_air(17, 60, zone()),
      usual_air("6:00 16.5C 60%; 15:00 23C 40%", zone()),
      AirRecord({forecast(kFriday, 18, 55), forecast(kFriday + hours(2), 24, 40)},
                *UsualDay::parse("0:00 19C 50%"),
                zone())};
  const PairRule rule =
      book().pair(product("oil-wiping-stain"), product("nitrocellulose-sanding-sealer")).value();
  for (const AirRecord& air : airs) {
    own_verdict::Reckoning reckoning(air, kFriday - hours(3));
    const own_verdict::Coat coat{&product("oil-wiping-stain"), kFriday, kFriday + minutes(10)};
    const auto expected = reckoning.opens(
        coat, rule.intervals.front().opens, own::normal_deviate(0.9), kFriday + hours(24 * 28));
    REQUIRE(expected);
    const auto early = look({stained()}, kFriday + hours(3), air);
    const StepNow& not_yet = step_of(early.front(), StepKind::kApply);
    CHECK(not_yet.readiness == Readiness::kNotYet);
    CHECK(about(not_yet.opens_at, expected));
    CHECK_THAT(not_yet.reason, Contains("Oil wiping stain needs"));
    for (const auto& [shift, readiness] : {std::pair(-minutes(3), Readiness::kNotYet),
                                           std::pair(minutes(3), Readiness::kMayBeDone)}) {
      const auto pieces = look({stained()}, *expected + shift, air);
      CHECK(step_of(pieces.front(), StepKind::kApply).readiness == readiness);
    }
  }
}

TEST_CASE("Wiping comes first while its window is open, then the rags", "[plan]") {
  // EVIDENCE: the recipe's wipe-off window, 5 to 15 minutes (trade_finishing_web)
  const AirRecord air = constant_air(20, 50, zone());
  Piece piece("stain-and-lacquer");
  piece.coat("oil-wiping-stain", kFriday);
  const PieceNow now = look({piece}, kFriday + minutes(7), air).front();
  REQUIRE(now.steps.size() >= 3);
  CHECK(now.steps[0].kind == StepKind::kWipe);
  CHECK(now.steps[0].readiness == Readiness::kOpen);
  CHECK(now.steps[0].opens_at == kFriday + minutes(5));
  CHECK(now.steps[0].closes_at == kFriday + minutes(15));
  CHECK(now.steps[1].kind == StepKind::kRags);
  CHECK(now.steps[1].readiness == Readiness::kOpen);
  CHECK(now.steps[2].readiness == Readiness::kNotYet);
  // Unwiped for longer it is no longer a step to take, but a fault that is told; rags stay open.
  const PieceNow later = look({piece}, kFriday + hours(20), air).front();
  CHECK_FALSE(has(later, StepKind::kWipe));
  CHECK(later.steps.front().kind == StepKind::kRags);
  REQUIRE(later.warnings.size() == 1);
  CHECK_THAT(later.warnings.front().text, Contains("No wiping"));
  piece.done(StepKind::kRags, kFriday + hours(21));
  CHECK_FALSE(has(look({piece}, kFriday + hours(22), air).front(), StepKind::kRags));
}

TEST_CASE("A coat waits for what the schedule has before it", "[plan]") {
  const AirRecord air = constant_air(20, 50, zone());
  Piece piece("stain-and-lacquer");
  const PieceNow fresh = look({piece}, kFriday, air).front();
  CHECK(step_of(fresh, StepKind::kSample).readiness == Readiness::kMayBeDone);
  CHECK(step_of(fresh, StepKind::kSand).grit == "P120");
  CHECK(step_of(fresh, StepKind::kApply).readiness == Readiness::kNotYet);
  CHECK_THAT(step_of(fresh, StepKind::kApply).first, Contains("sand P180"));
  piece.done(StepKind::kSample, kFriday).done(StepKind::kSand, kFriday, "P180");
  const PieceNow sanded = look({piece}, kFriday, air).front();
  CHECK(step_of(sanded, StepKind::kApply).readiness == Readiness::kMayBeDone);
  CHECK_FALSE(has(sanded, StepKind::kSand));
}

TEST_CASE("Nothing is sanded while a film on another piece catches dust", "[plan]") {
  // EVIDENCE: common practice, no source: no sanding beside a wet film
  const AirRecord air = constant_air(20, 50, zone());
  const Piece bare("stain-and-lacquer", "stool");
  own_verdict::Reckoning reckoning(air, kFriday - hours(3));
  const own_verdict::Coat coat{&product("oil-wiping-stain"), kFriday, kFriday + minutes(10)};
  const DryingStage* dust_free = product("oil-wiping-stain").stage(Stage::kDustFree);
  const auto expected =
      reckoning.opens(coat, dust_free->timing, own::normal_deviate(0.9), kFriday + hours(240));
  const auto pieces = look({stained(), bare}, kFriday + minutes(20), air);
  const StepNow& sand = step_of(pieces[1], StepKind::kSand);
  CHECK(sand.readiness == Readiness::kNotYet);
  CHECK(about(sand.opens_at, expected));
  CHECK_THAT(sand.reason, Contains("tray"));
  const auto later = look({stained(), bare}, *expected + minutes(2), air);
  CHECK(step_of(later[1], StepKind::kSand).readiness == Readiness::kMayBeDone);
}

TEST_CASE("A cold shop bars lacquer until the air is warm enough", "[plan]") {
  // EVIDENCE: the recipe's minimum of 16 C (trade_finishing_web); it is 12 C until Sunday 9:00
  const Time sunday = at("2027-03-07T09:00:00-05:00");
  const AirRecord air({forecast(sunday - hours(2), 12, 50),
                       forecast(sunday, 12, 50),
                       forecast(sunday + hours(1), 20, 40),
                       forecast(sunday + hours(3), 20, 40),
                       forecast(sunday + hours(5), 20, 40)},
                      *UsualDay::parse("0:00 20C 50%"),
                      zone());
  Piece piece("stain-and-lacquer");
  piece.coat("nitrocellulose-sanding-sealer", sunday - hours(30))
      .done(StepKind::kAbrade, sunday - hours(20), "P320");
  const PieceNow now = look({piece}, sunday, air).front();
  const StepNow& coat = step_of(now, StepKind::kApply);
  CHECK(coat.product == "nitrocellulose-lacquer-spray");
  CHECK(coat.readiness == Readiness::kNotYet);
  CHECK_THAT(coat.reason, Contains("below the 16.0 C"));
  // From 12 to 20 C in an hour: 16 C after 30 minutes, looked for every five.
  REQUIRE(coat.opens_at);
  CHECK(*coat.opens_at >= sunday + minutes(29));
  CHECK(*coat.opens_at <= sunday + minutes(36));
}

TEST_CASE("A step asked about by name waits for its stage", "[plan]") {
  const AirRecord air = constant_air(20, 50, zone());
  const Time sunday = at("2027-03-07T09:00:00-05:00");
  Piece piece("stain-and-lacquer");
  piece.coat("nitrocellulose-lacquer-spray", sunday);
  own_verdict::Reckoning reckoning(air, sunday - hours(3));
  const Product& lacquer = product("nitrocellulose-lacquer-spray");
  const std::vector<std::pair<StepKind, Stage>> kinds = {{StepKind::kAbrade, Stage::kSandable},
                                                         {StepKind::kFlip, Stage::kHandle},
                                                         {StepKind::kAssemble, Stage::kHandle},
                                                         {StepKind::kDeliver, Stage::kPrintFree}};
  for (const auto& [kind, stage] : kinds) {
    const auto expected = reckoning.opens({&lacquer, sunday, sunday},
                                          lacquer.stage(stage)->timing,
                                          own::normal_deviate(0.9),
                                          sunday + hours(24 * 28));
    const PieceNow now =
        look({piece}, sunday + minutes(1), air, AskedStep{kind, "", nullptr}).front();
    INFO(name_of(kind));
    CHECK(step_of(now, kind).readiness == Readiness::kNotYet);
    CHECK(about(step_of(now, kind).opens_at, expected));
  }
  const PieceNow inspected =
      look({piece}, sunday, air, AskedStep{StepKind::kInspect, "", nullptr}).front();
  CHECK(step_of(inspected, StepKind::kInspect).readiness == Readiness::kMayBeDone);
}

TEST_CASE("A product that must never go over what lies there is barred", "[plan]") {
  const AirRecord air = constant_air(20, 50, zone());
  const AskedStep asked{StepKind::kApply, "", &product("water-stain")};
  const PieceNow now = look({stained()}, kFriday + hours(100), air, asked).front();
  CHECK(step_of(now, StepKind::kApply).readiness == Readiness::kNever);
}

TEST_CASE("A varnish past its window asks for abrading first", "[plan]") {
  // EVIDENCE: common practice, no source: cured varnish is scuffed before the next coat
  const AirRecord air = constant_air(23, 50, zone());
  const Schedule schedule = schedule_of({coats("oil-modified-varnish", Method::kBrush, 2)});
  NowRequest request;
  PieceRequest piece;
  piece.name = "tray";
  piece.schedule = &schedule;
  LoggedWork coat;
  coat.kind = StepKind::kApply;
  coat.product = &product("oil-modified-varnish");
  coat.product_name = "oil-modified-varnish";
  coat.faces = {0};
  coat.at = kFriday;
  LoggedWork rags = coat;
  rags.kind = StepKind::kRags;
  piece.log = {coat, rags};
  request.pieces = {piece};
  request.now = kFriday + hours(24 * 10);
  const auto now = what_now(request, book(), air);
  REQUIRE(now);
  CHECK(step_of(now->front(), StepKind::kAbrade).readiness == Readiness::kMayBeDone);
  CHECK(step_of(now->front(), StepKind::kApply).readiness == Readiness::kNotYet);
  LoggedWork abrading = coat;
  abrading.kind = StepKind::kAbrade;
  abrading.product = nullptr;
  abrading.product_name.clear();
  abrading.at = request.now - minutes(5);
  request.pieces.front().log.push_back(abrading);
  const auto abraded = what_now(request, book(), air);
  REQUIRE(abraded);
  CHECK(step_of(abraded->front(), StepKind::kApply).readiness == Readiness::kMayBeDone);
  CHECK_FALSE(has(abraded->front(), StepKind::kAbrade));
}

TEST_CASE("A piece lying flat is turned over when it may be handled", "[plan]") {
  const AirRecord air = constant_air(20, 50, zone());
  Piece piece("stain-and-lacquer", "shelf", Faces::kTwo);
  piece.coat("nitrocellulose-lacquer-spray", kFriday, {0});
  const PieceNow now = look({piece}, kFriday + minutes(30), air).front();
  CHECK(step_of(now, StepKind::kFlip).readiness == Readiness::kNotYet);
  own_verdict::Reckoning reckoning(air, kFriday - hours(3));
  const Product& lacquer = product("nitrocellulose-lacquer-spray");
  const auto expected = reckoning.opens({&lacquer, kFriday, kFriday},
                                        lacquer.stage(Stage::kHandle)->timing,
                                        own::normal_deviate(0.9),
                                        kFriday + hours(240));
  CHECK(about(step_of(now, StepKind::kFlip).opens_at, expected));
}

TEST_CASE("When every coat is on, what is left is the time until use", "[plan]") {
  const AirRecord air = constant_air(20, 50, zone());
  Piece piece("linseed-oil");
  const Schedule& schedule = *piece.request().schedule;
  Time time = kFriday;
  for (const ScheduleStep& step : schedule.steps) {
    for (int i = 0; step.kind == ScheduleStepKind::kCoat && i < step.coats; ++i) {
      piece.coat(step.product, time).done(StepKind::kWipe, time + minutes(20));
      time += hours(24 * 5);
    }
  }
  piece.done(StepKind::kRags, time);
  const PieceNow now = look({piece}, time + minutes(1), air).front();
  CHECK(now.steps.empty());
  REQUIRE_FALSE(now.stages.empty());
  CHECK(now.stages.back().stage == "full-cure");
}
