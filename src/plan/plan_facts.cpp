#include "plan/plan_facts.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <set>
#include <tuple>

#include <fmt/format.h>

#include "air/wood_moisture.h"
#include "plan/coats_to_come.h"
#include "quantity/reckoning.h"

namespace coatwright {
namespace {

// A face may wait longer for its last cure than any weekend; beyond this a milestone is left out.
constexpr std::chrono::hours kMilestoneHorizon{24 * 200};

/// The end of the last step; the plan's start where all is done before it.
Time last_end(const Plan& plan) {
  Time last = plan.from;
  for (const PlanStep& step : plan.steps) {
    last = std::max(last, step.end);
  }
  return last;
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

/// The coats of all schedules.
std::vector<const ScheduleStep*> coat_steps_of(const std::vector<const PieceRequest*>& pieces) {
  std::vector<const ScheduleStep*> steps;
  for (const PieceRequest* piece : pieces) {
    for (const ScheduleStep& step : piece->schedule->steps) {
      if (step.kind == ScheduleStepKind::kCoat) {
        steps.push_back(&step);
      }
    }
  }
  return steps;
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

}  // namespace

void add_milestones(const FinishedChain& part, DryingClocks& clocks, Plan& plan) {
  constexpr Stage kStages[] = {
      Stage::kDustFree, Stage::kHandle, Stage::kPrintFree, Stage::kLightUse, Stage::kFullCure};
  const double deviate = normal_deviate(part.confidence);
  for (const Stage stage : kStages) {
    std::optional<Time> latest;
    std::string source;
    for (const auto& coat : part.last_coats) {
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
          {part.piece, part.part, std::string(name_of(stage)), *latest, source});
    }
  }
}

Result<void> add_quantities(const std::vector<const PieceRequest*>& pieces,
                            const RecipeBook& book,
                            const AirRecord& air,
                            Plan& plan) {
  std::vector<CoatUse> coats;
  for (const PieceRequest* piece : pieces) {
    auto of_piece = coats_to_come(*piece, plan.from, book, {});
    if (!of_piece) {
      return pass_on(of_piece.error());
    }
    std::move(of_piece->begin(), of_piece->end(), std::back_inserter(coats));
  }
  const auto application = book.application();
  if (!application) {
    return pass_on(application.error());
  }
  const BatchAir warmest = warmest_air(air, plan.from, last_end(plan));
  for (const ProductAmount& amount : amounts_of(coats, **application, warmest)) {
    plan.quantities.push_back(planned(amount));
  }
  return {};
}

Result<void> add_rates(const std::vector<const PieceRequest*>& pieces,
                       const RecipeBook& book,
                       Plan& plan) {
  std::set<std::tuple<std::string, double, double, double>> seen;
  for (const ScheduleStep* step : coat_steps_of(pieces)) {
    const auto product = book.product(step->product);
    if (!product) {
      return pass_on(product.error());
    }
    LaidCoat coat;
    coat.product = *product;
    set_film(coat, *step);
    const double share = coat.thinning ? coat.thinning->share : 0.0;
    const double thinner = coat.thinning ? coat.thinning->thinner.rate : 0.0;
    if (seen.emplace(step->product, coat.film_ratio, share, thinner).second) {
      add_rates_of(coat, plan);
    }
  }
  return {};
}

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

void add_air_warnings(const AirRecord& air, Plan& plan) {
  if (!air.has_entries()) {
    plan.warnings.push_back({"usual-day-only",
                             "No reading, logger or forecast covers these hours: the plan rests on "
                             "the shop's usual day alone. Read the air before each coat.",
                             std::nullopt});
    return;
  }
  const Time last = last_end(plan);
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

void add_wood_warning(const PieceRequest& piece, const AirRecord& air, Plan& plan) {
  constexpr double kPoints = 0.02;
  if (!piece.wood_moisture || plan.steps.empty()) {
    return;
  }
  Time last = plan.steps.front().end;
  for (const PlanStep& step : plan.steps) {
    last = std::max(last, step.end);
  }
  double sum = 0.0;
  int count = 0;
  for (Time at = plan.from; at <= last; at += std::chrono::hours(1)) {
    const AirState state = air.at(at);
    sum += equilibrium_moisture_content(state.temperature, state.humidity);
    ++count;
  }
  const double kept = sum / std::max(1, count);
  const double measured = *piece.wood_moisture;
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

}  // namespace coatwright
