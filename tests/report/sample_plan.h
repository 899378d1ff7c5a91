#pragma once

#include <optional>
#include <string>

#include "air/moist_air.h"
#include "base/zone.h"
#include "plan/plan.h"

/// A plan written by hand, of an invented shop and piece, so that pages are tested without a
/// planner. Its figures are made up to be told apart, not to be right.
namespace sample {

using namespace coatwright;

inline Zone zone() {
  return Zone::find("America/New_York").value();
}

/// @param text RFC 3339.
inline Time at(const std::string& text) {
  return parse_rfc3339(text).value();
}
inline Time fri(const std::string& clock) {
  return at("2027-03-05T" + clock + ":00-05:00");
}
inline Time sat(const std::string& clock) {
  return at("2027-03-06T" + clock + ":00-05:00");
}
inline Time sun(const std::string& clock) {
  return at("2027-03-07T" + clock + ":00-05:00");
}

inline AirState air_of(double celsius, double percent, AirOrigin origin = AirOrigin::kUsualDay) {
  const auto temperature = Temperature::from_celsius(celsius);
  const auto humidity = RelativeHumidity::from_percent(percent);
  return {temperature, humidity, dew_point(temperature, humidity), origin};
}

inline AirKnot knot_of(Time time, double celsius, double percent, AirOrigin origin) {
  const auto temperature = Temperature::from_celsius(celsius);
  return {
      time,
      temperature,
      humidity_ratio_from_relative_humidity(temperature, RelativeHumidity::from_percent(percent)),
      origin};
}

inline PlanStep step_of(int id, StepKind kind, Time start, Time end) {
  return {.id = id,
          .piece = "Sideboard",
          .part = "top",
          .face = "",
          .kind = kind,
          .product = "",
          .product_title = "",
          .revision = "",
          .method = "",
          .grit = "",
          .start = start,
          .end = end,
          .after = {},
          .air = air_of(16, 60),
          .surface = Temperature::from_celsius(15.5),
          .work_source = "working-times-derived",
          .notes = {},
          .cautions = {}};
}

inline const RateLaw kOxidationLaw{Mechanism::kOxidation, std::nullopt, 50.0};

inline RateLaw evaporation_law() {
  return {Mechanism::kEvaporation,
          Antoine{"n-butyl acetate", 9.33785, 1458.032, -61.605, "perry_dippr"},
          0.0};
}

inline Wait stain_wait() {
  Wait wait;
  wait.step = 3;
  wait.stage = "recoat";
  wait.mechanism = "oxidation, 50 kJ/mol";
  wait.product = "oil-wiping-stain";
  wait.phases = {
      {kOxidationLaw, {Hours::from_hours(12), Hours::from_hours(24)}, Hours::from_hours(24)}};
  wait.gate = Temperature::from_celsius(10);
  wait.since = fri("18:00");
  wait.opens_at = sat("17:29");
  wait.needed = Hours::from_hours(24);
  wait.earned = Hours::from_hours(24.2);
  wait.closes_at = sun("09:00");
  wait.condition = "none";
  wait.source = "trade-finishing-web";
  wait.chance = 0.88;
  return wait;
}

/// A wait of two phases, as a waterborne film has it.
inline Wait two_phase_wait() {
  Wait wait;
  wait.step = 6;
  wait.stage = "handle";
  wait.mechanism = "water loss, then coalescence, 50 kJ/mol";
  wait.product = "waterborne-sealer";
  wait.phases = {{RateLaw{Mechanism::kWaterLoss, std::nullopt, 0.0},
                  {Hours::from_hours(0.5), Hours::from_hours(1)},
                  Hours::from_hours(1)},
                 {RateLaw{Mechanism::kCoalescence, std::nullopt, 50.0},
                  {Hours::from_hours(2), Hours::from_hours(4)},
                  Hours::from_hours(4)}};
  wait.since = sat("18:00");
  wait.opens_at = sun("11:30");
  wait.needed = Hours::from_hours(5);
  wait.earned = Hours::from_hours(5.25);
  wait.condition = "none";
  wait.source = "judgement";
  return wait;
}

inline const std::string kRagCaution =
    "Oily rags may ignite by themselves: lay them flat outdoors, one layer, or put them under "
    "water "
    "in a metal can with a lid; follow the label and the local code.";
inline const std::string kVapourCaution =
    "Flammable vapour: no flame, pilot light, heater or unrated motor or switch in the room.";

inline std::vector<PlanStep> friday_steps() {
  PlanStep board = step_of(1, StepKind::kSample, fri("16:00"), fri("16:20"));
  board.done = true;
  board.notes = {"On an off-cut of the same board, sanded the same; look at it wet and dry."};
  PlanStep sand = step_of(2, StepKind::kSand, fri("16:20"), fri("17:10"));
  sand.face = "both";
  sand.grit = "P180";
  sand.room = "bench";
  PlanStep stain = step_of(3, StepKind::kApply, fri("17:20"), fri("17:45"));
  stain.product = "oil-wiping-stain";
  stain.product_title = "Oil wiping stain";
  stain.revision = "1b7d5cc4bb5a1e10";
  stain.method = "wipe";
  stain.coat = 1;
  stain.face = "front";
  stain.cautions = {kRagCaution};
  PlanStep wipe = step_of(4, StepKind::kWipe, fri("17:50"), fri("18:00"));
  wipe.product = stain.product;
  wipe.product_title = stain.product_title;
  wipe.face = "front";
  wipe.cautions = {kRagCaution};
  Wait soak;
  soak.step = 3;
  soak.stage = "wipe-off";
  soak.mechanism = "clock time";
  soak.product = stain.product;
  soak.since = fri("17:45");
  soak.opens_at = fri("17:50");
  soak.needed = Hours::from_minutes(5);
  soak.earned = Hours::from_minutes(5);
  soak.closes_at = fri("18:00");
  soak.source = "trade-finishing-web";
  wipe.after = {soak};
  std::vector<PlanStep> steps = {board, sand, stain, wipe};
  for (PlanStep& step : steps) {
    step.air = air_of(17, 53, AirOrigin::kLogger);
  }
  return steps;
}

inline std::vector<PlanStep> weekend_steps() {
  PlanStep seal = step_of(6, StepKind::kApply, sat("17:30"), sat("18:00"));
  seal.product = "waterborne-sealer";
  seal.product_title = "Waterborne sealer";
  seal.method = "spray";
  seal.coat = 2;
  seal.face = "front";
  seal.people = 2;
  seal.spray_places = 1;
  seal.chance = 0.84;
  seal.after = {stain_wait()};
  seal.notes = {"Strain it into the cup."};
  seal.cautions = {kRagCaution, kVapourCaution};
  PlanStep flip = step_of(7, StepKind::kFlip, sun("11:30"), sun("11:40"));
  flip.after = {two_phase_wait()};
  PlanStep lacquer = step_of(8, StepKind::kApply, sun("18:30"), sun("19:05"));
  lacquer.product = "nitrocellulose-lacquer-spray";
  lacquer.product_title = "Nitrocellulose lacquer (spray)";
  lacquer.method = "spray";
  lacquer.coat = 3;
  lacquer.face = "back";
  lacquer.spray_places = 1;
  lacquer.cautions = {kVapourCaution};
  return {seal, flip, lacquer};
}

inline std::vector<AirKnot> air() {
  return {knot_of(fri("16:00"), 18, 50, AirOrigin::kLogger),
          knot_of(fri("20:00"), 15, 58, AirOrigin::kLogger),
          knot_of(sat("00:00"), 14, 62, AirOrigin::kUsualDay),
          knot_of(sat("15:00"), 19, 48, AirOrigin::kUsualDay),
          knot_of(sun("06:00"), 14, 62, AirOrigin::kUsualDay),
          knot_of(sun("20:00"), 18, 52, AirOrigin::kUsualDay)};
}

/// A plan that fits, ending 55 minutes before its date.
inline Plan plan() {
  Plan plan;
  plan.made_at = fri("15:58");
  plan.from = fri("16:00");
  plan.by = sun("20:00");
  plan.complete = true;
  plan.fits = true;
  plan.finish = sun("19:05");
  plan.bound = sun("18:40");
  plan.chance = 0.87;
  plan.search = {7, 1234, "budget"};
  plan.hours = {{fri("16:00"), fri("20:00")},
                {sat("09:00"), sat("12:00")},
                {sat("13:00"), sat("18:00")},
                {sun("09:00"), sun("20:00")}};
  PlanPiece piece;
  piece.name = "Sideboard";
  piece.species = "black-walnut";
  piece.schedule = "stain-and-lacquer";
  piece.area = Area::from_square_metres(1.9);
  piece.faces = 2;
  piece.parts = {"top"};
  piece.due = plan.by;
  piece.finish = plan.finish;
  plan.pieces = {piece};
  plan.air = air();
  plan.steps = friday_steps();
  for (const PlanStep& step : weekend_steps()) {
    plan.steps.push_back(step);
  }
  plan.milestones = {
      {"Sideboard", "top", "light-use", at("2027-03-16T08:00:00-04:00"), "from-memory"},
      {"Sideboard", "top", "print-free", at("2027-03-09T10:30:00-05:00"), "judgement"}};
  plan.quantities = {{"oil-wiping-stain",
                      "Oil wiping stain",
                      Volume::from_litres(0.35),
                      "1 coat x 2 faces x 1.90 m2 / 11 m2 per L"}};
  plan.warnings = {
      {"no-usual-day", "The shop's usual day is not known; 18 C and 50 % are taken.", 6}};
  plan.hold_ups = {{"oil wiping stain until recoat", sat("17:29") - fri("18:00")},
                   {"the shop is closed", std::chrono::hours(9)}};
  plan.rates = {{"oil-wiping-stain",
                 "recoat",
                 kOxidationLaw,
                 Hours::from_hours(12),
                 Hours::from_hours(24),
                 1.0,
                 Temperature::from_celsius(10),
                 "trade-finishing-web"},
                {"nitrocellulose-lacquer-spray",
                 "dust-free",
                 evaporation_law(),
                 Hours::from_hours(0.05),
                 Hours::from_hours(0.17),
                 0.75,
                 std::nullopt,
                 "from-memory"}};
  return plan;
}

/// The same, but four days and three hours late.
inline Plan late_plan() {
  Plan late = plan();
  late.fits = false;
  late.finish = late.by + std::chrono::hours(4 * 24 + 3);
  late.chance = 0.004;
  return late;
}

/// The steps stop where the lacquer found no place.
inline Plan incomplete_plan() {
  Plan stopped = plan();
  stopped.complete = false;
  stopped.fits = false;
  stopped.finish.reset();
  stopped.bound.reset();
  stopped.chance = 0;
  stopped.steps.pop_back();
  stopped.hold_ups = {
      {"nitrocellulose lacquer (spray): the shop is never above 16 C up to the end "
       "of the plan's horizon",
       std::chrono::seconds(0)}};
  return stopped;
}

/// Every text of it is far longer than a line, some without a blank, some not ASCII, and the times
/// have odd seconds.
inline Plan long_plan() {
  const std::string endless(130, 'x');
  Plan plan = sample::plan();
  PlanPiece second = plan.pieces.front();
  plan.pieces.front().name = "Nu\u00dfbaum-Anrichte \u00fcber Eck mit " + endless;
  second.name = "The other\npiece\tof the pair, to be finished together with its twin, same board";
  second.on_points = true;
  second.due = plan.by + std::chrono::hours(300);
  plan.pieces.push_back(second);
  for (PlanStep& step : plan.steps) {
    step.part = "left door below the drawer with the " + endless;
    step.product_title += step.product_title.empty() ? "" : " of a kind that needs " + endless;
    step.notes.push_back(endless + " " + endless);
    step.room = "room behind the bench room behind the yard behind the gate behind the street";
    step.start += std::chrono::seconds(17);
    step.end += std::chrono::seconds(17);
    for (Wait& wait : step.after) {
      wait.mechanism += ", " + endless;
      wait.condition = endless;
      wait.source = endless;
      wait.closes_at = step.end + std::chrono::hours(1000);
    }
    step.work_source = endless + std::to_string(step.id);
  }
  plan.quantities.front().basis = endless;
  plan.quantities.front().amount = Volume::from_litres(123456);
  plan.warnings.front().text = endless;
  plan.hold_ups.front().text = endless;
  plan.rates.front().source = endless;
  plan.milestones.front().part = endless;
  plan.steps.back().end += std::chrono::hours(200);
  return plan;
}

/// Air about freezing, where rounding makes zeros.
inline Plan cold_plan() {
  Plan plan = sample::plan();
  for (PlanStep& step : plan.steps) {
    step.air = air_of(-0.04, 99.9);
    step.surface = step.air.dew_point + TemperatureDifference::from_kelvin(-0.01);
  }
  for (AirKnot& knot : plan.air) {
    knot = knot_of(knot.at, -0.04, 99.9, knot.origin);
  }
  return plan;
}

}  // namespace sample
