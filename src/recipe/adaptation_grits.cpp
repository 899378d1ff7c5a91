// The grits and waits that a schedule leaves open.
#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "recipe/adaptation.h"
#include "recipe/adaptation_parts.h"
#include "recipe/grits.h"

namespace coatwright {
namespace {

/// What the first sanding works towards.
struct Target {
  const Product& product;
  const GritLimits& limits;
  const SandingGround& ground;
};

bool finer(const std::string& grit, const std::string& than) {
  return grit_ratio(than, grit).value_or(1.0) > 1.0;
}

Result<Target> target_of(const Schedule& schedule, const AdaptationGround& ground) {
  const auto product = product_to_sand_for(schedule, ground.book);
  if (!product) {
    return pass_on(product.error());
  }
  const auto found = ground.sanding.final_grits.find((*product)->layer);
  if (found == ground.sanding.final_grits.end()) {
    return fail(ErrorCode::kNotFound,
                fmt::format("the sanding table has no last grit under '{}'; name the grits in the "
                            "schedule's step of kind sand",
                            (*product)->layer));
  }
  return Target{
      **product, found->second.limits.at(sanded_wood(ground.species)), found->second.ground};
}

std::string start_of(const AdaptationGround& ground) {
  return ground.start.left == SurfaceLeft::kSanded
             ? ground.start.grit
             : ground.sanding.start_grits.at(ground.start.left).limits.typical;
}

Result<void> choose_for_first_sanding(ScheduleStep& step,
                                      const Target& target,
                                      const AdaptationGround& ground) {
  const std::string start = start_of(ground);
  const std::string& last = target.limits.typical;
  auto grits = sanding_sequence(start, last);
  if (!grits) {
    return pass_on(std::move(grits.error()));
  }
  step.grits = std::move(*grits);
  step.source = target.ground.source;
  add_note(step,
           fmt::format("To {} on {} under {}: {}.",
                       last,
                       ground.species.title,
                       target.product.name,
                       target.ground.reason));
  if (finer(start, target.limits.finest)) {
    add_note(step, fmt::format("The wood was sanded to {}, so go back to {}.", start, last));
  }
  return {};
}

/// The maker's own grits stay. Coarser ones come first where the surface needs them.
Result<void> keep_own_grits(ScheduleStep& step,
                            const Target& target,
                            const AdaptationGround& ground) {
  const std::string start = start_of(ground);
  if (finer(step.grits.front(), start)) {
    const auto before = sanding_sequence(start, step.grits.front());
    if (!before) {
      return pass_on(before.error());
    }
    const std::string why = ground.start.left == SurfaceLeft::kSanded
                                ? "the wood was sanded no finer"
                                : ground.sanding.start_grits.at(ground.start.left).ground.reason;
    const std::vector<std::string> coarser(before->begin(), before->end() - 1);
    add_note(step, fmt::format("Put in first: {}; {}.", fmt::join(coarser, ", "), why));
    step.grits.insert(step.grits.begin(), coarser.begin(), coarser.end());
  }
  const std::string& last = step.grits.back();
  if (finer(last, target.limits.finest) || finer(target.limits.coarsest, last)) {
    add_note(step,
             fmt::format("{} to {} is usual on {} under {}: {}.",
                         target.limits.coarsest,
                         target.limits.finest,
                         ground.species.title,
                         target.product.name,
                         target.ground.reason));
  }
  return {};
}

Result<void> choose_for_sanding(ScheduleStep& step,
                                bool first,
                                const Schedule& schedule,
                                const AdaptationGround& ground) {
  if (!first && !step.grits.empty()) {
    return {};
  }
  const auto target = target_of(schedule, ground);
  if (!target) {
    // A maker's own grits need no table.
    return step.grits.empty() || target.error().code != ErrorCode::kNotFound
               ? Result<void>(pass_on(target.error()))
               : Result<void>();
  }
  if (!first) {
    step.grits = {target->limits.typical};
    step.source = target->ground.source;
    return {};
  }
  return step.grits.empty() ? choose_for_first_sanding(step, *target, ground)
                            : keep_own_grits(step, *target, ground);
}

/// Not coarser than the wood was sanded.
void choose_for_raised_grain(ScheduleStep& step,
                             const std::string& sanded_to,
                             const AdaptationGround& ground) {
  if (!step.grits.empty()) {
    return;
  }
  const bool softwood = has_trait(ground.species, WoodTrait::kSoftwood);
  const GritChoice& choice =
      *(softwood ? ground.sanding.raised_softwood : ground.sanding.raised_hardwood);
  const std::string& grit = choice.limits.typical;
  step.grits = {finer(sanded_to, grit) ? sanded_to : grit};
  step.source = choice.ground.source;
}

Result<void> choose_for_abrading(ScheduleStep& step, const Product* beneath) {
  if (!step.grits.empty()) {
    return {};
  }
  if (beneath == nullptr || beneath->abrade_grit.empty()) {
    return fail(ErrorCode::kOutOfRange,
                fmt::format("no grit is known for abrading {}; name it in the schedule's step",
                            beneath == nullptr ? "before the first coat" : beneath->name));
  }
  step.grits = {beneath->abrade_grit};
  return {};
}

Result<void> choose_for_rubbing_out(ScheduleStep& step,
                                    Sheen sheen,
                                    const Product* beneath,
                                    const AdaptationGround& ground) {
  const RubOut& rub_out = ground.sanding.rub_outs.at(sheen);
  if (step.grits.empty()) {
    step.grits = rub_out.grits;
    add_note(step, fmt::format("Then with {}: {}.", rub_out.then, rub_out.ground.reason));
    step.source = step.source.empty() ? rub_out.ground.source : step.source;
  }
  if (step.waits) {
    return {};
  }
  const std::string layer = beneath == nullptr ? "" : beneath->layer;
  const auto wait = ground.sanding.rub_out_waits.find(layer);
  if (wait == ground.sanding.rub_out_waits.end()) {
    return fail(ErrorCode::kNotFound,
                fmt::format("the sanding table has no wait before '{}' is rubbed out; give the "
                            "schedule's step waits_low_hours and waits_high_hours",
                            layer));
  }
  step.waits = wait->second.waits;
  step.source = wait->second.ground.source;
  add_note(step, fmt::format("The wait: {}.", wait->second.ground.reason));
  return {};
}

/// Goes through a schedule's steps in their order.
class Chooser {
 public:
  Chooser(Schedule& schedule, const AdaptationGround& ground)
      : schedule_(schedule), ground_(ground) {}

  Result<void> choose(std::size_t index) {
    ScheduleStep& step = schedule_.steps[index];
    const auto beneath = product_before(schedule_, index, ground_.book);
    if (!beneath) {
      return pass_on(beneath.error());
    }
    switch (step.kind) {
      case ScheduleStepKind::kSand: {
        const bool first = std::exchange(first_sanding_, false);
        auto chosen = choose_for_sanding(step, first, schedule_, ground_);
        sanded_to_ = step.grits.empty() ? "" : step.grits.back();
        return chosen;
      }
      case ScheduleStepKind::kRaiseGrain:
        choose_for_raised_grain(step, sanded_to_, ground_);
        return {};
      case ScheduleStepKind::kAbrade:
        return choose_for_abrading(step, *beneath);
      case ScheduleStepKind::kRubOut:
        return choose_for_rubbing_out(step, schedule_.sheen, *beneath, ground_);
      case ScheduleStepKind::kSample:
      case ScheduleStepKind::kWash:
      case ScheduleStepKind::kCoat:
        break;
    }
    return {};
  }

 private:
  Schedule& schedule_;
  const AdaptationGround& ground_;
  bool first_sanding_ = true;
  std::string sanded_to_;
};

}  // namespace

Result<void> choose_grits(Schedule& schedule, const AdaptationGround& ground) {
  Chooser chooser(schedule, ground);
  for (std::size_t i = 0; i < schedule.steps.size(); ++i) {
    if (auto chosen = chooser.choose(i); !chosen) {
      return chosen;
    }
  }
  return {};
}

}  // namespace coatwright
