// What is held back for safety, whosesoever it is, and what releases it.
#include "plan/safety_now.h"

#include <algorithm>

#include <catch2/catch.hpp>

#include "plan/plan_requests.h"

using namespace coatwright;
using namespace asked;
using Catch::Matchers::Contains;
using std::chrono::hours;
using std::chrono::minutes;

namespace {

const Time kFriday = at("2027-03-05T13:00:00-05:00");

/// A piece with its log in the making.
class Piece {
 public:
  Piece(const std::string& name, const Schedule& schedule) {
    request_.name = name;
    request_.schedule = &schedule;
    request_.area = Area::from_square_metres(1.0);
  }

  Piece& coat(const std::string& product, Time time) {
    LoggedWork work;
    work.kind = StepKind::kApply;
    work.product = *book().product(product);
    work.product_name = product;
    work.faces = {0};
    work.at = time;
    request_.log.push_back(work);
    return *this;
  }
  Piece& log(StepKind kind, Time time, bool left_out = false, const std::string& grit = "") {
    LoggedWork work;
    work.kind = kind;
    work.left_out = left_out;
    work.grit = grit;
    work.faces = {0};
    work.at = time;
    request_.log.push_back(work);
    return *this;
  }
  [[nodiscard]] const PieceRequest& request() const { return request_; }

 private:
  PieceRequest request_;
};

const Schedule& named(const std::string& name) {
  return **book().schedule(name);
}

std::vector<PieceNow> look(const std::vector<Piece>& pieces,
                           Time now,
                           const std::string& ignition = "") {
  NowRequest request;
  for (const Piece& piece : pieces) {
    request.pieces.push_back(piece.request());
  }
  request.now = now;
  request.room.ignition = ignition;
  auto answer = what_now(request, book(), constant_air(22.0, 45.0, zone()));
  if (!answer) {
    FAIL(answer.error().text());
  }
  return std::move(*answer);
}

const StepNow* find(const std::vector<PieceNow>& pieces, const std::string& name, StepKind kind) {
  for (const PieceNow& piece : pieces) {
    for (const StepNow& step : piece.steps) {
      if (piece.piece == name && step.kind == kind) {
        return &step;
      }
    }
  }
  return nullptr;
}

const StepNow& step_of(const std::vector<PieceNow>& pieces,
                       const std::string& name,
                       StepKind kind) {
  const StepNow* step = find(pieces, name, kind);
  if (step == nullptr) {
    FAIL("no " << name_of(kind) << " of " << name);
  }
  return *step;
}

int may_be_done(const std::vector<PieceNow>& pieces) {
  int count = 0;
  for (const PieceNow& piece : pieces) {
    for (const StepNow& step : piece.steps) {
      count += step.readiness == Readiness::kMayBeDone;
    }
  }
  return count;
}

/// Stained, its excess wiped off, and its rags still lying there.
Piece stained() {
  return Piece("tray", named("stain-and-lacquer"))
      .coat("oil-wiping-stain", kFriday)
      .log(StepKind::kWipe, kFriday + minutes(10));
}

/// Bare wood, ready for its sample or first grit.
Piece bare(const std::string& name = "stool") {
  static const Schedule kSchedule =
      schedule_of({sanding({"P180"}), coats("dewaxed-shellac", Method::kBrush, 1)});
  return {name, kSchedule};
}

const Schedule& two_coats_of_lacquer() {
  static const Schedule kSchedule =
      schedule_of({coats("nitrocellulose-lacquer-spray", Method::kSpray, 2)});
  return kSchedule;
}
const Schedule& sprayed_enamel() {
  static const Schedule kSchedule = schedule_of({coats("alkyd-enamel", Method::kSpray, 2)});
  return kSchedule;
}
const Schedule& brushed_enamel() {
  static const Schedule kSchedule = schedule_of({coats("alkyd-enamel", Method::kBrush, 2)});
  return kSchedule;
}

/// May be sprayed at once.
Piece ready() {
  return {"stool", two_coats_of_lacquer()};
}

}  // namespace

// EVIDENCE: osha_1910_107 (g)(3): rags go into metal waste cans immediately after use
TEST_CASE("Rags that lie open hold back every piece's work", "[plan]") {
  const auto pieces = look({stained(), ready()}, kFriday + minutes(12));
  CHECK(step_of(pieces, "tray", StepKind::kRags).readiness == Readiness::kOpen);
  CHECK(may_be_done(pieces) == 0);
  int held = 0;
  for (const PieceNow& piece : pieces) {
    for (const StepNow& step : piece.steps) {
      held += step.first.find("rags of tray") != std::string::npos;
    }
  }
  CHECK(held >= 1);
  const StepNow& of_other = pieces[1].steps.front();
  CHECK(of_other.readiness == Readiness::kNotYet);
  CHECK_THAT(of_other.first,
             Contains("coatwright done rags --piece \"tray\"") && Contains("skip rags"));
}

TEST_CASE("Wiping is due and is not held back by rags", "[plan]") {
  const Piece wet =
      Piece("box", named("stain-and-lacquer")).coat("oil-wiping-stain", kFriday + minutes(11));
  const auto pieces = look({stained(), wet}, kFriday + minutes(17));
  CHECK(step_of(pieces, "tray", StepKind::kRags).readiness == Readiness::kOpen);
  CHECK(step_of(pieces, "box", StepKind::kWipe).readiness == Readiness::kOpen);
}

TEST_CASE("Rags that were seen to, or left out with a reason, hold back nothing", "[plan]") {
  for (const bool left_out : {false, true}) {
    Piece tray = stained();
    tray.log(StepKind::kRags, kFriday + minutes(12), left_out);
    const auto pieces = look({tray, ready()}, kFriday + minutes(14));
    const StepNow* rags = find(pieces, "tray", StepKind::kRags);
    CHECK((rags != nullptr) == left_out);  // left out, they still lie there
    if (rags != nullptr) {
      CHECK_THAT(rags->reason, Contains("Left out, with a reason in the log"));
    }
    CHECK(may_be_done(pieces) > 0);
    for (const PieceNow& piece : pieces) {
      for (const StepNow& step : piece.steps) {
        CHECK_THAT(step.first, !Contains("oily rags"));
      }
    }
  }
}

TEST_CASE("Rags of weeks ago that nobody logged still hold back", "[plan]") {
  // Nothing says that they are not there any more; no hour ends the danger.
  const auto pieces = look({stained(), bare()}, kFriday + hours(24 * 20));
  CHECK(step_of(pieces, "tray", StepKind::kRags).readiness == Readiness::kOpen);
  CHECK(may_be_done(pieces) == 0);
}

TEST_CASE("What could ignite vapour holds back flammable coats alone", "[plan]") {
  static const Schedule kWaterborne = schedule_of({coats("waterborne-clear", Method::kBrush, 2)});
  const Piece lacquer("shelf", two_coats_of_lacquer());
  const Piece waterborne("door", kWaterborne);
  const auto free = look({lacquer, waterborne}, kFriday);
  CHECK(step_of(free, "shelf", StepKind::kApply).readiness == Readiness::kMayBeDone);
  const auto pieces = look({lacquer, waterborne}, kFriday, "a wood stove");
  const StepNow& held = step_of(pieces, "shelf", StepKind::kApply);
  CHECK(held.readiness == Readiness::kNotYet);
  CHECK_THAT(held.first, Contains("a wood stove") && Contains("--ignition none"));
  CHECK(step_of(pieces, "door", StepKind::kApply).readiness == Readiness::kMayBeDone);
}

// EVIDENCE: osha_1910_107 (g)(6): all deposits removed before the other kind is sprayed
TEST_CASE("What lies in the booth holds back what would ignite with it", "[plan]") {
  const Time earlier = kFriday - hours(24 * 4);
  const Piece lacquer("shelf", two_coats_of_lacquer());
  Piece enamel("door", sprayed_enamel());
  enamel.coat("alkyd-enamel", earlier).log(StepKind::kRags, earlier + minutes(5));
  const auto pieces = look({enamel, lacquer}, kFriday);
  const StepNow& held = step_of(pieces, "shelf", StepKind::kApply);
  CHECK(held.readiness == Readiness::kNotYet);
  CHECK_THAT(held.first, Contains("clean the booth") && Contains("skip clean_booth"));
  CHECK_THAT(step_of(pieces, "door", StepKind::kApply).first, !Contains("booth"));

  for (const bool left_out : {false, true}) {
    Piece cleaned = enamel;
    cleaned.log(StepKind::kCleanBooth, earlier + hours(2), left_out);
    const auto after = look({cleaned, lacquer}, kFriday);
    CHECK(step_of(after, "shelf", StepKind::kApply).readiness == Readiness::kMayBeDone);
  }

  Piece brushed("door", brushed_enamel());
  brushed.coat("alkyd-enamel", earlier).log(StepKind::kRags, earlier + minutes(5));
  const auto beside = look({brushed, lacquer}, kFriday);
  CHECK(step_of(beside, "shelf", StepKind::kApply).readiness == Readiness::kMayBeDone);
}

TEST_CASE("Lacquer that was sprayed over oil residue does not make the booth clean", "[plan]") {
  const Time earlier = kFriday - hours(24 * 4);
  Piece enamel("door", sprayed_enamel());
  enamel.coat("alkyd-enamel", earlier).log(StepKind::kRags, earlier + minutes(5));
  Piece lacquer("shelf", two_coats_of_lacquer());
  lacquer.coat("nitrocellulose-lacquer-spray", earlier + hours(3));
  const auto pieces = look({enamel, lacquer}, kFriday);
  CHECK(step_of(pieces, "shelf", StepKind::kApply).readiness == Readiness::kNotYet);
  CHECK_THAT(step_of(pieces, "shelf", StepKind::kApply).first, Contains("clean the booth"));
}
