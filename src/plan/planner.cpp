#include "plan/planner.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>

#include <fmt/format.h>

#include "air/wood_moisture.h"
#include "plan/chain.h"
#include "plan/coats_to_come.h"
#include "plan/preparations.h"
#include "plan/work_sequence.h"
#include "quantity/reckoning.h"
#include "recipe/schedule_check.h"

namespace coatwright {
namespace {

using std::chrono::seconds;

// A face may wait longer for its last cure than any weekend; beyond this a milestone is left out.
constexpr std::chrono::hours kMilestoneHorizon{24 * 200};
// What must be air for the clocks before the first step: the board's memory of the air.
constexpr std::chrono::hours kAirBefore{3};

constexpr double kChanceGrain = 1.0 / 128.0;

bool ends_earlier(const Chain& a, const Chain& b) {
  if (a.finish && b.finish) {
    return *a.finish < *b.finish;
  }
  return a.finish.has_value() || (!b.finish && a.steps.size() > b.steps.size());
}

std::vector<FaceOrder> orders_of(Faces faces) {
  if (faces == Faces::kTwo) {
    return {FaceOrder::kPerCoat, FaceOrder::kPerProduct};
  }
  return {FaceOrder::kPerCoat};
}

/// The best chain over the face orders. @param placements grows by the places tried.
Result<Chain> best_chain(const PlanRequest& request,
                         Strictness strictness,
                         const RecipeBook& book,
                         DryingClocks& clocks,
                         std::int64_t& placements) {
  std::optional<Chain> best;
  const auto scheduled = scheduled_works(*request.piece.schedule, book);
  if (!scheduled) {
    return pass_on(scheduled.error());
  }
  Progress progress = progress_of(request.piece, *scheduled, request.from);
  hold_back_early_coats(
      progress, book, clocks, {normal_deviate(request.confidence), request.horizon});
  for (const FaceOrder order : orders_of(request.piece.faces)) {
    const auto works = work_sequence(request.piece, order, *scheduled, progress);
    auto chain = place_chain(request, progress, works, strictness, book, clocks);
    if (!chain) {
      return pass_on(chain.error());
    }
    placements += chain->placements;
    if (!best || ends_earlier(*chain, *best)) {
      best = std::move(*chain);
    }
  }
  return std::move(*best);
}

/// One face of a piece alone, as if it were all of it.
PlanRequest face_alone(const PlanRequest& request, int face) {
  PlanRequest alone = request;
  alone.piece.faces = Faces::kOne;
  alone.piece.log.clear();
  for (LoggedWork entry : request.piece.log) {
    const bool is_on_face =
        std::find(entry.faces.begin(), entry.faces.end(), face) != entry.faces.end();
    // Rags are seen to whichever face they are of.
    if (is_on_face || entry.kind == StepKind::kRags) {
      entry.faces = {0};
      alone.piece.log.push_back(std::move(entry));
    }
  }
  return alone;
}

/// A moment that no plan ends before: whatever the order of turning over, each face alone takes its
/// time. Nothing when the relaxed chain finds no end.
Result<std::optional<Time>> bound_of(const PlanRequest& request,
                                     const RecipeBook& book,
                                     DryingClocks& clocks,
                                     std::int64_t& placements) {
  std::vector<PlanRequest> relaxed = {request};
  if (request.piece.faces == Faces::kTwo) {
    relaxed = {face_alone(request, 0), face_alone(request, 1)};
  }
  std::optional<Time> latest;
  for (const PlanRequest& one : relaxed) {
    const auto chain = best_chain(one, Strictness::kBound, book, clocks, placements);
    if (!chain) {
      return pass_on(chain.error());
    }
    if (!chain->finish) {
      return std::nullopt;
    }
    latest = std::max(latest.value_or(*chain->finish), *chain->finish);
  }
  return latest;
}

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

void add_milestones(const PlanRequest& request,
                    const Chain& chain,
                    DryingClocks& clocks,
                    Plan& plan) {
  constexpr Stage kStages[] = {
      Stage::kDustFree, Stage::kHandle, Stage::kPrintFree, Stage::kLightUse, Stage::kFullCure};
  const double deviate = normal_deviate(request.confidence);
  for (const Stage stage : kStages) {
    std::optional<Time> latest;
    std::string source;
    for (const auto& coat : chain.last_coats) {
      const auto timing = coat ? coat->timing(stage) : std::nullopt;
      if (!timing) {
        continue;
      }
      const auto at =
          coat->since_end(clocks).opens(*timing, deviate, coat->ended + kMilestoneHorizon);
      if (at && (!latest || *at > *latest)) {
        latest = at;
        source = coat->product->stage(stage)->source;
      }
    }
    if (latest) {
      plan.milestones.push_back(
          {request.piece.name, "all", std::string(name_of(stage)), *latest, source});
    }
  }
}

PlannedQuantity planned(const ProductAmount& amount) {
  PlannedQuantity quantity;
  quantity.product = amount.product->name;
  quantity.product_title = amount.product->title;
  quantity.amount = amount.amount;
  quantity.basis = reckoning_of(amount, std::nullopt);
  for (const MixShare& share : amount.mix) {
    quantity.parts.push_back({share.name, share.amount});
  }
  quantity.batches = amount.batches.count();
  return quantity;
}

/// What the coats that are still to come need. The plan's steps are there already.
Result<void> add_quantities(const PlanRequest& request,
                            const RecipeBook& book,
                            const AirRecord& air,
                            Plan& plan) {
  const auto coats = coats_to_come(request.piece, request.from, book, {});
  if (!coats) {
    return pass_on(coats.error());
  }
  const auto application = book.application();
  if (!application) {
    return pass_on(application.error());
  }
  const Time last = plan.steps.empty() ? plan.from : std::max(plan.from, plan.steps.back().end);
  const BatchAir warmest = warmest_air(air, plan.from, last);
  for (const ProductAmount& amount : amounts_of(*coats, **application, warmest)) {
    plan.quantities.push_back(planned(amount));
  }
  return {};
}

/// The figures of one product's stages for a coat's film and thinner.
void add_rates_of(const LaidCoat& coat, Plan& plan) {
  for (const auto& [stage, drying] : coat.product->stages) {
    for (const Phase& phase : drying.timing.phases) {
      const bool evaporates = coat.thinning && phase.law.solvent;
      plan.rates.push_back(
          {coat.product->name,
           std::string(name_of(stage)),
           phase.law,
           phase.duration.low(),
           phase.duration.high(),
           std::pow(coat.film_ratio, phase.film_exponent) *
               (evaporates ? coat.thinning->factor_for(phase.law.solvent->solvent) : 1.0),
           coat.gate(),
           drying.source});
    }
  }
}

Result<void> add_rates(const PlanRequest& request, const RecipeBook& book, Plan& plan) {
  std::set<std::tuple<std::string, double, double, double>> seen;
  for (const ScheduleStep& step : request.piece.schedule->steps) {
    if (step.kind != ScheduleStepKind::kCoat) {
      continue;
    }
    const auto product = book.product(step.product);
    if (!product) {
      return pass_on(product.error());
    }
    LaidCoat coat;
    coat.product = *product;
    set_film(coat, step);
    const double share = coat.thinning ? coat.thinning->share : 0.0;
    const double thinner = coat.thinning ? coat.thinning->thinner.rate : 0.0;
    if (seen.emplace(step.product, coat.film_ratio, share, thinner).second) {
      add_rates_of(coat, plan);
    }
  }
  return {};
}

/// Says by which recipes the coats to come are planned.
Result<void> add_revisions(const RecipeBook& book, Plan& plan) {
  for (PlanStep& step : plan.steps) {
    if (step.done || step.kind != StepKind::kApply) {
      continue;
    }
    auto revision = book.revision(step.product);
    if (!revision) {
      return pass_on(revision.error());
    }
    step.revision = std::move(*revision);
  }
  return {};
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

void add_air_warnings(const AirRecord& air, Plan& plan) {
  if (!air.has_entries()) {
    plan.warnings.push_back({"usual-day-only",
                             "No reading, logger or forecast covers these hours: the plan rests on "
                             "the shop's usual day alone. Read the air before each coat.",
                             std::nullopt});
    return;
  }
  // Where all is done, the last step may lie before the plan's start.
  const Time last = plan.steps.empty() ? plan.from : std::max(plan.from, plan.steps.back().end);
  for (const AirKnot& knot : air.knots(plan.from, last)) {
    if (knot.origin == AirOrigin::kUsualDay && knot.at < last) {
      plan.warnings.push_back(
          {"usual-day-from",
           fmt::format("No reading, logger or forecast covers the hours from {} on, or some of "
                       "them: there the plan rests on the shop's usual day.",
                       show_full(knot.at, air.zone())),
           std::nullopt});
      return;
    }
  }
}

/// Wood that was measured to be damper or drier than this air keeps it moves under the film. The
/// mean is over the plan's hours. Source: [wood_handbook2010] eq. 4-5; the two points are
/// judgement.
void add_wood_warning(const PlanRequest& request, const AirRecord& air, Plan& plan) {
  constexpr double kPoints = 0.02;
  if (!request.piece.wood_moisture || plan.steps.empty()) {
    return;
  }
  double sum = 0.0;
  int count = 0;
  for (Time at = plan.from; at <= plan.steps.back().end; at += std::chrono::hours(1)) {
    const AirState state = air.at(at);
    sum += equilibrium_moisture_content(state.temperature, state.humidity);
    ++count;
  }
  const double kept = sum / std::max(1, count);
  const double measured = *request.piece.wood_moisture;
  if (std::abs(measured - kept) <= kPoints) {
    return;
  }
  plan.warnings.push_back(
      {"wood-moisture",
       fmt::format(
           "The wood was measured at {:.1f} % moisture, and this air would keep it at {:.1f} "
           "%: it will {} under the film. Let it stand in the shop until the two are within "
           "2 points.",
           measured * 100.0,
           kept * 100.0,
           measured > kept ? "shrink" : "swell"),
       std::nullopt});
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

/// The air corners over the plan and as far as its milestones and waits look.
std::vector<AirKnot> air_of(const AirRecord& air, const Plan& plan) {
  Time first = plan.from;
  Time last = plan.from;
  for (const PlanStep& step : plan.steps) {
    first = std::min(first, step.start);
    last = std::max(last, step.end);
  }
  for (const Milestone& milestone : plan.milestones) {
    if (milestone.stage != "full-cure" && milestone.stage != "light-use") {
      last = std::max(last, milestone.at);
    }
  }
  return air.knots(first, last);
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
  if (plan.complete) {
    add_milestones(request, *chain, clocks, plan);
  }
  add_hold_ups(*chain, plan);
  plan.steps = std::move(chain->steps);
  add_air_warnings(air, plan);
  add_wood_warning(request, air, plan);
  plan.warnings.insert(plan.warnings.end(), chain->warnings.begin(), chain->warnings.end());
  for (const GritFinding& finding : check_grits(*request.piece.schedule)) {
    plan.warnings.push_back({"grit-jump", finding.remark.text(), std::nullopt});
  }
  if (auto added = add_quantities(request, book, air, plan); !added) {
    return pass_on(added.error());
  }
  if (auto added = add_rates(request, book, plan); !added) {
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
  plan.air = air_of(air, plan);
  return plan;
}

}  // namespace coatwright
