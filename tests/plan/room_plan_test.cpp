// What a plan's coats do to the air of the room, against the room followed second by second with
// nothing of src/safety or src/drying: own_room.h.
#include "plan/room_plan.h"

#include <list>
#include <map>

#include <catch2/catch.hpp>

#include "plan/own_room.h"
#include "plan/shop_requests.h"

using namespace coatwright;
using namespace asked;
using Catch::Matchers::Contains;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

namespace {

const Time kMonday = at("2027-02-01T08:00:00-05:00");
/// 100 um of wet film are 10 m2 from a litre, and 0.6 of it stays on the wood.
constexpr double kSquareMetresPerLitre = 6.0;
constexpr double kOnTheWood = 0.6;
/// The program goes by whole minutes.
constexpr double kNear = 0.03;
constexpr minutes kMinutes{2};

FinishingRoom room_of(double cubic_metres, double fan, FanRating rating = FanRating::kRated) {
  FinishingRoom room;
  room.volume = AirVolume::from_cubic_metres(cubic_metres);
  room.fan = AirFlow::from_cubic_metres_per_hour(fan);
  room.rating = rating;
  return room;
}

AirRecord mild() {
  return constant_air(21.0, 45.0, zone());
}

PlanRequest one_piece(const std::string& schedule, const FinishingRoom& room, double area = 2.0) {
  Asked asked;
  asked.schedule = schedule;
  asked.square_metres = area;
  PlanRequest request = asked::request(asked, kMonday, kMonday + hours(24 * 20), zone());
  request.room = room;
  return request;
}

Plan planned(const PlanRequest& request, const AirRecord& air) {
  auto plan = make_plan(request, book(), air);
  if (!plan) {
    FAIL(plan.error().text());
  }
  return std::move(*plan);
}

bool is_of_room(StepKind kind) {
  return kind == StepKind::kFanOff || kind == StepKind::kReenter || kind == StepKind::kCleanBooth;
}

/// What the plan says apart from the room.
std::string fingerprint(const Plan& plan) {
  std::string text = fmt::format("{} {:.6f}", plan.fits, plan.chance);
  for (const PlanStep& step : plan.steps) {
    if (!is_of_room(step.kind)) {
      text += fmt::format("\n{} {} {} {} {} {} {:.4f}",
                          step.id,
                          step.piece,
                          name_of(step.kind),
                          step.coat,
                          show_utc(step.start),
                          show_utc(step.end),
                          step.air.temperature.celsius());
    }
  }
  for (const Milestone& milestone : plan.milestones) {
    text += fmt::format("\n{} {}", milestone.stage, show_utc(milestone.at));
  }
  return text;
}

const PlanWarning* warning(const Plan& plan, const std::string& code) {
  for (const PlanWarning& one : plan.warnings) {
    if (one.code == code) {
      return &one;
    }
  }
  return nullptr;
}

const PlanVapour& vapour_of(const Plan& plan, Time start, const std::string& piece) {
  for (const PlanVapour& vapour : plan.room->coats) {
    for (const PlanStep& step : plan.steps) {
      if (step.id == vapour.step && step.start == start && step.piece == piece) {
        return vapour;
      }
    }
  }
  FAIL("no vapour of a coat at " << show_utc(start));
  return plan.room->coats.front();
}

std::vector<own_room::Coat> own_coats(const Plan& plan,
                                      const std::map<std::string, double>& areas,
                                      double probability,
                                      const AirRecord& air) {
  return own_room::coats_of(
      plan, areas, kSquareMetresPerLitre, kOnTheWood, probability, book(), air);
}

/// Each coat's peak until the next coat, from second to second.
void check_peaks(const Plan& plan,
                 const std::map<std::string, double>& areas,
                 double volume,
                 double fan,
                 const AirRecord& air) {
  const auto coats = own_coats(plan, areas, 0.1, air);
  const auto course = own_room::follow(coats, volume, fan / MixingFactor::kAssumed);
  REQUIRE_FALSE(coats.empty());
  for (std::size_t i = 0; i < coats.size(); ++i) {
    if (i + 1 < coats.size() && coats[i + 1].start - coats[i].start < minutes(3)) {
      continue;  // the program's minutes are too coarse for so short a stretch
    }
    INFO(coats[i].piece << " " << coats[i].product->name << " " << show_utc(coats[i].start));
    const Time until = i + 1 < coats.size() ? coats[i + 1].start : coats[i].dry + hours(2);
    const own_room::Level peak = course.peak(coats[i].start, until);
    const PlanVapour& vapour = vapour_of(plan, coats[i].start, coats[i].piece);
    REQUIRE(vapour.of_explosive_limit.has_value());
    CHECK(*vapour.of_explosive_limit == Approx(peak.explosive).epsilon(kNear));
    CHECK(*vapour.of_exposure_limits == Approx(peak.exposure).epsilon(kNear));
  }
}

std::vector<Time> starts_of(const Plan& plan, StepKind kind) {
  std::vector<Time> starts;
  for (const PlanStep* step : of_kind(plan, kind)) {
    starts.push_back(step->start);
  }
  return starts;
}

/// When a fan goes off, and from when the air stays within the limits until the next coat.
struct OwnTimes {
  std::vector<Time> off;
  std::vector<Time> breathable;
};

OwnTimes times_of(const own_room::Course& course) {
  OwnTimes times;
  for (std::size_t i = 1; i < course.fan.size(); ++i) {
    if (course.fan[i - 1] && !course.fan[i]) {
      times.off.push_back(course.from + seconds(i));
      std::size_t last_above = i;
      while (last_above > 0 && course.levels[last_above - 1].exposure <= 1.0) {
        --last_above;
      }
      times.breathable.push_back(course.from + seconds(last_above));
    }
  }
  return times;
}

/// Both hold for coats that dry slowly, and no sooner than for those that dry quickly.
void check_times(const Plan& plan,
                 const std::map<std::string, double>& areas,
                 double volume,
                 double fan,
                 const AirRecord& air) {
  const auto follow = [&](double confidence) {
    const auto coats = own_coats(plan, areas, confidence, air);
    return times_of(own_room::follow(coats, volume, fan / MixingFactor::kAssumed));
  };
  auto [off, breathable] = follow(0.9);
  const OwnTimes quick = follow(0.1);
  for (std::size_t i = 0; i < off.size(); ++i) {
    for (std::size_t j = 0; j < quick.off.size(); ++j) {
      const bool same_run = quick.off[j] <= off[i] && (i == 0 || quick.off[j] > off[i - 1]);
      breathable[i] = same_run ? std::max(breathable[i], quick.breathable[j]) : breathable[i];
    }
  }
  const auto said_off = starts_of(plan, StepKind::kFanOff);
  const auto said_breathable = starts_of(plan, StepKind::kReenter);
  REQUIRE_FALSE(off.empty());
  REQUIRE(said_off.size() == off.size());
  REQUIRE(said_breathable.size() == off.size());
  for (std::size_t i = 0; i < off.size(); ++i) {
    INFO("own: off " << show_utc(off[i]) << ", breathable " << show_utc(breathable[i]));
    INFO("said: off " << show_utc(said_off[i]) << ", " << show_utc(said_breathable[i]));
    // The program takes the tail straight between its points, which is on the late side.
    CHECK(said_off[i] >= off[i] - kMinutes);
    CHECK(said_off[i] <= off[i] + minutes(30));
    CHECK(std::chrono::abs(said_breathable[i] - breathable[i]) <= kMinutes);
  }
}

/// Three shelves that are sprayed by three people at once.
ShopRequest three_shelves(const FinishingRoom& room) {
  ShopRequest request = shop(kMonday, kMonday + hours(24 * 14), zone(), "Mon-Fri 8:00-17:00", 3);
  request.effort = 60;
  request.resources.room = room;
  for (const char* name : {"left shelf", "middle shelf", "right shelf"}) {
    request.jobs.push_back(job(name, {part("all", "sprayed-lacquer", 1.2)}));
  }
  return request;
}

double worst_of(const Plan& plan) {
  double worst = 0.0;
  for (const PlanVapour& vapour : plan.room->coats) {
    worst = std::max(worst, vapour.of_explosive_limit.value());
  }
  return worst;
}

}  // namespace

// EVIDENCE: acgih_ventilation mass balance of a mixed room, stepped through second by second
TEST_CASE("A piece's coats bring the room's air where stepping through says", "[plan]") {
  const AirRecord air = mild();
  for (const double fan : {300.0, 850.0}) {
    const PlanRequest request = one_piece("sprayed-lacquer", room_of(90.0, fan));
    const Plan plan = planned(request, air);
    REQUIRE(plan.room.has_value());
    CHECK(plan.room->coats.size() == 4);
    check_peaks(plan, {{"tray", 2.0}}, 90.0, fan, air);
    check_times(plan, {{"tray", 2.0}}, 90.0, fan, air);
    CHECK(warning(plan, "vapour-ignites") == nullptr);
  }
}

TEST_CASE("Pieces that are sprayed at once add up in the room's air", "[plan]") {
  const AirRecord air = constant_air(23.0, 45.0, zone());
  const auto plan = make_shop_plan(three_shelves(room_of(120.0, 1200.0)), book(), air);
  REQUIRE(plan);
  INFO(in_lines(*plan));
  REQUIRE(plan->room.has_value());
  CHECK(plan->room->coats.size() == 12);
  const std::map<std::string, double> areas = {
      {"left shelf", 1.2}, {"middle shelf", 1.2}, {"right shelf", 1.2}};
  check_peaks(*plan, areas, 120.0, 1200.0, air);
  check_times(*plan, areas, 120.0, 1200.0, air);
  // Somewhere there is more in the air than one shelf alone ever brings.
  const Plan alone = planned(one_piece("sprayed-lacquer", room_of(120.0, 1200.0), 1.2), air);
  CHECK(worst_of(*plan) > 1.3 * worst_of(alone));
}

TEST_CASE("The fan that is named carries the plan, and a slightly smaller one does not", "[plan]") {
  const AirRecord air = mild();
  const Plan plan = planned(one_piece("sprayed-lacquer", room_of(22.0, 60.0), 4.0), air);
  REQUIRE(worst_of(plan) > kShareOfExplosiveLimit);
  REQUIRE(warning(plan, "vapour-ignites") != nullptr);
  REQUIRE(plan.room->fan_needed.has_value());
  const double needed = plan.room->fan_needed->cubic_metres_per_hour();
  CHECK_THAT(warning(plan, "vapour-ignites")->text, Contains(fmt::format("{:.0f} m3/h", needed)));
  const auto own_worst = [&](double fan) {
    const auto coats = own_coats(plan, {{"tray", 4.0}}, 0.1, air);
    const auto course = own_room::follow(coats, 22.0, fan / MixingFactor::kAssumed);
    return course.peak(course.from, course.from + hours(24 * 20)).explosive;
  };
  INFO("needed " << needed);
  CHECK(own_worst(needed) <= kShareOfExplosiveLimit * 1.005);
  CHECK(own_worst(needed - 20.0) > kShareOfExplosiveLimit * 0.995);
  const Plan with = planned(one_piece("sprayed-lacquer", room_of(22.0, needed), 4.0), air);
  CHECK(worst_of(with) <= kShareOfExplosiveLimit);
  CHECK(warning(with, "vapour-ignites") == nullptr);
  CHECK_FALSE(with.room->fan_needed.has_value());
  const Plan without =
      planned(one_piece("sprayed-lacquer", room_of(22.0, needed - 20.0), 4.0), air);
  CHECK(worst_of(without) > kShareOfExplosiveLimit);
}

TEST_CASE("A fan that is not rated, or none, is reckoned with for nothing flammable", "[plan]") {
  const AirRecord air = mild();
  for (const FanRating rating : {FanRating::kNotRated, FanRating::kUnknown}) {
    const Plan plan = planned(one_piece("sprayed-lacquer", room_of(90.0, 850.0, rating)), air);
    CHECK(plan.room->runs.empty());
    CHECK(of_kind(plan, StepKind::kFanOff).empty());
    CHECK(of_kind(plan, StepKind::kReenter).empty());
    CHECK(warning(plan, "fan-not-rated") != nullptr);
    check_peaks(plan, {{"tray", 2.0}}, 90.0, 0.0, air);
  }
  FinishingRoom no_fan = room_of(90.0, 850.0);
  no_fan.fan.reset();
  const Plan plan = planned(one_piece("sprayed-lacquer", no_fan), air);
  CHECK(of_kind(plan, StepKind::kFanOff).empty());
  CHECK(of_kind(plan, StepKind::kReenter).empty());
  REQUIRE(warning(plan, "no-exhaust") != nullptr);
  check_peaks(plan, {{"tray", 2.0}}, 90.0, 0.0, air);
}

TEST_CASE("Of a room of unknown size nothing is reckoned but what the coats set free", "[plan]") {
  FinishingRoom unknown = room_of(90.0, 850.0);
  unknown.volume.reset();
  const Plan plan = planned(one_piece("sprayed-lacquer", unknown), mild());
  REQUIRE(plan.room.has_value());
  CHECK(plan.room->coats.size() == 4);
  for (const PlanVapour& vapour : plan.room->coats) {
    CHECK_FALSE(vapour.of_explosive_limit.has_value());
    CHECK_FALSE(vapour.of_exposure_limits.has_value());
    CHECK(vapour.vapour.used.litres() == Approx(2.0 / kSquareMetresPerLitre));
  }
  CHECK(of_kind(plan, StepKind::kFanOff).empty());
  CHECK(of_kind(plan, StepKind::kReenter).empty());
}

TEST_CASE("No figure clears the air after isocyanates or formaldehyde", "[plan]") {
  for (const char* schedule :
       {"two-part-polyurethane", "moisture-cure-polyurethane", "conversion-varnish"}) {
    INFO(schedule);
    const Plan plan =
        planned(one_piece(schedule, room_of(90.0, 850.0)), constant_air(22, 50, zone()));
    REQUIRE_FALSE(of_kind(plan, StepKind::kApply).empty());
    CHECK(of_kind(plan, StepKind::kFanOff).empty());
    CHECK(of_kind(plan, StepKind::kReenter).empty());
    REQUIRE(warning(plan, "not-cleared") != nullptr);
    CHECK_THAT(warning(plan, "not-cleared")->text, Contains("data sheet"));
  }
}

TEST_CASE("What could ignite the vapour in the room stops a flammable plan, and no other",
          "[plan]") {
  FinishingRoom room = room_of(90.0, 850.0);
  room.ignition = "a gas water heater";
  const Plan refused = planned(one_piece("sprayed-lacquer", room), mild());
  CHECK(refused.steps.empty());
  CHECK_FALSE(refused.fits);
  CHECK_FALSE(refused.complete);
  CHECK_THAT(reasons(refused), Contains("a gas water heater") && Contains("flammable"));
  const auto of_shop = make_shop_plan(three_shelves(room), book(), mild());
  REQUIRE(of_shop);
  CHECK(of_shop->steps.empty());
  CHECK_FALSE(of_shop->fits);
  CHECK_THAT(reasons(*of_shop), Contains("a gas water heater"));
  const Plan waterborne = planned(one_piece("waterborne-clear", room), mild());
  CHECK(waterborne.complete);
  CHECK_FALSE(waterborne.steps.empty());
}

TEST_CASE("Apart from what the room adds the plan is that without a room", "[plan]") {
  const AirRecord air = mild();
  for (const char* schedule : {"sprayed-lacquer", "stain-and-lacquer", "waterborne-clear"}) {
    INFO(schedule);
    const Plan without = planned(one_piece(schedule, {}), air);
    const Plan with = planned(one_piece(schedule, room_of(90.0, 850.0)), air);
    CHECK(fingerprint(with) == fingerprint(without));
    CHECK(of_kind(without, StepKind::kFanOff).empty());
    CHECK_FALSE(of_kind(with, StepKind::kFanOff).empty());
    for (const PlanStep& step : with.steps) {
      if (is_of_room(step.kind)) {
        CHECK_FALSE(step.attended);
        CHECK(step.people == 0);
        CHECK(step.air.temperature == air.at(step.start).temperature);
      }
    }
    CHECK(std::is_sorted(with.steps.begin(), with.steps.end(), [](const auto& a, const auto& b) {
      return a.start < b.start;
    }));
  }
}

TEST_CASE("The steps of the room carry the air of their own hour", "[plan]") {
  const AirRecord air = usual_air("6:00 18C 50%; 15:00 25C 40%", zone());
  const Plan plan = planned(one_piece("sprayed-lacquer", room_of(90.0, 850.0)), air);
  REQUIRE_FALSE(of_kind(plan, StepKind::kFanOff).empty());
  for (const StepKind kind : {StepKind::kFanOff, StepKind::kReenter}) {
    for (const PlanStep* step : of_kind(plan, kind)) {
      CHECK(step->air.temperature.celsius() == Approx(air.at(step->start).temperature.celsius()));
      CHECK(step->air.humidity.percent() == Approx(air.at(step->start).humidity.percent()));
    }
  }
}

TEST_CASE("What was in the air before the plan warns of nothing any more", "[plan]") {
  // One thick coat, long ago, filled the small room; the one that is left is thin.
  ScheduleStep thick = coats("nitrocellulose-lacquer-spray", Method::kSpray, 1);
  thick.wet_film = FilmThickness::from_micrometres(150.0);
  ScheduleStep thin = thick;
  thin.wet_film = FilmThickness::from_micrometres(20.0);
  const Schedule schedule = schedule_of({thick, thin});
  PlanRequest request = one_piece("", room_of(30.0, 200.0), 5.0);
  request.piece.schedule = &schedule;
  const Plan before = planned(request, mild());
  REQUIRE(warning(before, "vapour-ignites") != nullptr);
  LoggedWork coat;
  coat.kind = StepKind::kApply;
  coat.product = *book().product("nitrocellulose-lacquer-spray");
  coat.product_name = coat.product->name;
  coat.faces = {0};
  coat.at = kMonday - hours(24 * 5);
  request.piece.log.push_back(coat);
  const Plan after = planned(request, mild());
  REQUIRE(after.room->coats.size() == 1);
  CHECK(after.room->coats.front().of_explosive_limit.value() < kShareOfExplosiveLimit);
  CHECK(warning(after, "vapour-ignites") == nullptr);
  CHECK_FALSE(after.room->fan_needed.has_value());
  for (const FanRun& run : after.room->runs) {
    CHECK(run.on >= kMonday);
  }
}

TEST_CASE("A fan's run of long ago is over, though no figure said when it may be off", "[plan]") {
  const Schedule schedule = schedule_of({coats("two-part-polyurethane", Method::kSpray, 1),
                                         sanding({"P320"}),
                                         coats("two-part-polyurethane", Method::kSpray, 1)});
  PlanRequest request = one_piece("", room_of(90.0, 850.0));
  request.piece.schedule = &schedule;
  LoggedWork coat;
  coat.kind = StepKind::kApply;
  coat.product = *book().product("two-part-polyurethane");
  coat.product_name = coat.product->name;
  coat.faces = {0};
  coat.at = kMonday - hours(24 * 30);
  request.piece.log.push_back(coat);
  const Plan plan = planned(request, mild());
  INFO(in_lines(plan));
  REQUIRE(plan.room->runs.size() == 1);
  CHECK(plan.room->runs.front().on >= kMonday);
  CHECK_FALSE(plan.room->runs.front().off.has_value());
}
