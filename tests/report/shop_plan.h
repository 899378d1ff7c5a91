#pragma once

#include "sample_plan.h"

/// The plan of a shop with two pieces, one of two parts, written by hand as sample_plan.h is.
namespace sample {

inline PlanStep work(int id,
                     const std::string& piece,
                     const std::string& part,
                     StepKind kind,
                     Time start,
                     int minutes) {
  PlanStep step = step_of(id, kind, start, start + std::chrono::minutes(minutes));
  step.piece = piece;
  step.part = part;
  return step;
}

inline PlanStep coat(PlanStep step, const std::string& product, int number) {
  step.product = product;
  step.product_title = product == "waterborne-clear" ? "Waterborne clear" : "Hardwax oil";
  step.method = product == "waterborne-clear" ? "spray" : "wipe";
  step.spray_places = step.method == "spray" ? 1 : 0;
  step.coat = number;
  return step;
}

inline PlanStep drying(PlanStep step, int rack_places) {
  step.attended = false;
  step.people = 0;
  step.rack_places = rack_places;
  return step;
}

inline std::vector<PlanStep> shop_steps() {
  std::vector<PlanStep> steps = {
      work(1, "Sideboard", "top", StepKind::kSand, fri("16:00"), 40),
      work(2, "Tray", "all", StepKind::kSand, fri("16:00"), 25),
      coat(work(3, "Sideboard", "top", StepKind::kApply, fri("16:45"), 30), "waterborne-clear", 1),
      drying(work(4, "Sideboard", "top", StepKind::kWait, fri("17:15"), 165), 2),
      coat(work(5, "Tray", "all", StepKind::kApply, fri("17:15"), 20), "hardwax-oil", 1),
      work(6, "Sideboard", "base", StepKind::kSand, fri("17:30"), 30),
      coat(work(7, "Sideboard", "base", StepKind::kApply, fri("18:00"), 60), "waterborne-clear", 1),
      drying(work(8, "Sideboard", "base", StepKind::kWait, fri("19:00"), 60), 2),
      coat(work(9, "Sideboard", "top", StepKind::kApply, sat("09:00"), 30), "waterborne-clear", 2),
      coat(
          work(10, "Sideboard", "base", StepKind::kApply, sat("09:30"), 60), "waterborne-clear", 2),
      coat(work(11, "Tray", "all", StepKind::kApply, sat("13:00"), 20), "hardwax-oil", 2),
      work(12, "Sideboard", "all", StepKind::kAssemble, sun("09:00"), 90)};
  steps[0].room = "bench";
  steps[0].benches = 1;
  steps[11].people = 2;
  steps[11].benches = 1;
  return steps;
}

inline PlanPiece shop_piece(const std::string& name,
                            std::vector<std::string> parts,
                            Time due,
                            Time finish) {
  PlanPiece piece;
  piece.name = name;
  piece.species = "black-walnut";
  piece.schedule = "sprayed";
  piece.area = Area::from_square_metres(1.9);
  piece.parts = std::move(parts);
  piece.due = due;
  piece.finish = finish;
  piece.late = std::max(std::chrono::seconds(0), finish - due);
  piece.chance = finish > due ? 0.31 : 0.93;
  return piece;
}

/// Two people, one spray place, four rack places, one bench; the sideboard is 2 h 30 min late.
inline Plan shop_plan() {
  Plan plan = sample::plan();
  plan.steps = shop_steps();
  plan.pieces = {shop_piece("Sideboard", {"top", "base"}, sun("08:00"), sun("10:30")),
                 shop_piece("Tray", {"all"}, sun("20:00"), sat("13:20"))};
  const std::chrono::minutes half_hour{30};
  plan.pieces[0].critical = {
      {10, 9, "spray places", half_hour, std::chrono::seconds(0), std::chrono::seconds(0)},
      {9, 3, "drying", std::chrono::hours(16), std::chrono::hours(13), half_hour},
      {1, 0, "start"}};
  plan.shortages = {{"spray places", std::chrono::minutes(75), 2}};
  plan.finish = sun("10:30");
  plan.bound = sun("10:00");
  plan.fits = false;
  plan.shop = PlanShop{2, {}, 1, 4, std::nullopt};
  for (const Interval& open : plan.hours) {
    plan.shop->hours.push_back({open, open.start == sat("13:00") ? 1 : 2});
  }
  plan.milestones.clear();
  plan.warnings.clear();
  return plan;
}

}  // namespace sample
