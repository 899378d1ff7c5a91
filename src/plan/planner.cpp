#include "plan/planner.h"

#include <algorithm>

#include "plan/best_chain.h"
#include "plan/plan_facts.h"
#include "plan/preparations.h"
#include "plan/room_plan.h"
#include "plan/work_sequence.h"
#include "recipe/schedule_check.h"

namespace coatwright {
namespace {

using std::chrono::seconds;

// What must be air for the clocks before the first step: the board's memory of the air.
constexpr std::chrono::hours kAirBefore{3};

constexpr double kChanceGrain = 1.0 / 128.0;

/// The earliest moment that a plan's clocks are asked about.
Time first_moment(const PlanRequest& request) {
  Time first = request.from;
  if (!request.piece.log.empty()) {
    first = std::min(first, request.piece.log.front().at);
  }
  return request.piece.over ? std::min(first, request.piece.over->since) : first;
}

/// The chance that the work ends by its date: the highest confidence at which every wait can be
/// taken and a plan still ends in time. All coats are slow together there, so it is a cautious
/// figure. Source: derived; the sum of comonotone log-normal waits.
double chance_by_date(const PlanRequest& request, const RecipeBook& book, DryingClocks& clocks) {
  const auto fits_at = [&](double confidence) {
    PlanRequest other = request;
    other.confidence = confidence;
    std::int64_t ignored = 0;
    const auto chain = best_chain(other, Strictness::kTrial, book, clocks, ignored);
    return chain && chain->finish && *chain->finish <= request.by;
  };
  double sure = 0.0;
  double unsure = 1.0;
  while (unsure - sure > kChanceGrain) {
    const double middle = (sure + unsure) / 2.0;
    (fits_at(middle) ? sure : unsure) = middle;
  }
  return sure;
}

void add_hold_ups(const Chain& chain, Plan& plan) {
  if (chain.stopped_by) {
    plan.hold_ups.push_back({*chain.stopped_by, seconds(0)});
  }
  std::vector<HoldUp> waits;
  seconds work(0);
  for (const PlanStep& step : chain.steps) {
    work += step.attended && !step.done ? step.end - step.start : seconds(0);
  }
  for (const auto& [reason, span] : chain.held_up) {
    waits.push_back({reason, span});
  }
  waits.push_back({"work on the piece", work});
  std::stable_sort(
      waits.begin(), waits.end(), [](const HoldUp& a, const HoldUp& b) { return a.span > b.span; });
  plan.hold_ups.insert(plan.hold_ups.end(), waits.begin(), waits.end());
}

/// One maker is there.
std::vector<StaffedHours> alone_in(const std::vector<Interval>& hours) {
  std::vector<StaffedHours> staffed;
  for (const Interval& open : hours) {
    staffed.push_back({open, 1});
  }
  return staffed;
}

PlanPiece piece_of(const PlanRequest& request, const Chain& chain) {
  PlanPiece piece;
  piece.name = request.piece.name;
  piece.species = request.piece.species == nullptr ? "" : request.piece.species->title;
  piece.schedule = request.piece.schedule->name;
  piece.area = request.piece.area;
  piece.faces = request.piece.faces == Faces::kOne ? 1 : 2;
  piece.on_points = request.piece.faces == Faces::kOnPoints;
  piece.parts = {"all"};
  piece.due = request.by;
  piece.finish = chain.finish;
  piece.late = chain.finish ? std::max(seconds(0), *chain.finish - request.by) : seconds(0);
  return piece;
}

}  // namespace

Result<Plan> make_plan(const PlanRequest& request, const RecipeBook& book, const AirRecord& air) {
  DryingClocks clocks(air, first_moment(request) - kAirBefore);
  Plan plan;
  plan.made_at = request.made_at;
  plan.from = request.from;
  plan.by = request.by;
  plan.confidence = request.confidence;
  plan.hours = request.hours;
  const std::vector<RoomPart> parts = {{request.piece.name, "all", &request.piece}};
  const auto forbidden = ignition_forbids(request.room, parts, book);
  if (!forbidden) {
    return pass_on(forbidden.error());
  }
  if (!forbidden->empty()) {
    refuse_plan(*forbidden, plan);
    plan.pieces.push_back(piece_of(request, Chain{}));
    return plan;
  }
  auto chain = best_chain(request, Strictness::kPlan, book, clocks, plan.search.nodes);
  if (!chain) {
    return pass_on(chain.error());
  }
  const auto bound = bound_of(request, book, clocks, plan.search.nodes);
  if (!bound) {
    return pass_on(bound.error());
  }
  plan.complete = chain->finish.has_value();
  plan.finish = chain->finish;
  plan.bound = *bound;
  plan.fits = plan.complete && *plan.finish <= request.by;
  if (plan.finish && plan.bound && *plan.bound > *plan.finish) {
    plan.bound.reset();  // the relaxed chain did worse than the plan: it bounds nothing
  }
  plan.search.stopped_by = plan.finish && plan.finish == plan.bound ? "proof" : "budget";
  plan.chance = chance_by_date(request, book, clocks);
  plan.pieces.push_back(piece_of(request, *chain));
  plan.pieces.back().chance = plan.chance;
  if (plan.complete) {
    add_milestones(
        {request.piece.name, "all", chain->last_coats, request.confidence}, clocks, plan);
  }
  add_hold_ups(*chain, plan);
  plan.steps = std::move(chain->steps);
  add_air_warnings(air, plan);
  add_wood_warning(request.piece, air, plan);
  plan.warnings.insert(plan.warnings.end(), chain->warnings.begin(), chain->warnings.end());
  for (const GritFinding& finding : check_grits(*request.piece.schedule)) {
    plan.warnings.push_back({"grit-jump", finding.remark.text(), std::nullopt});
  }
  if (auto added = add_quantities({&request.piece}, book, air, plan); !added) {
    return pass_on(added.error());
  }
  if (auto added = add_rates({&request.piece}, book, plan); !added) {
    return pass_on(added.error());
  }
  if (auto added = add_revisions(book, plan); !added) {
    return pass_on(added.error());
  }
  auto preparations = preparations_of(plan, book);
  if (!preparations) {
    return pass_on(preparations.error());
  }
  plan.preparations = std::move(*preparations);
  if (auto added = add_room(request.room, parts, alone_in(request.hours), book, clocks, plan);
      !added) {
    return pass_on(added.error());
  }
  plan.air = air_of(air, plan);
  return plan;
}

}  // namespace coatwright
