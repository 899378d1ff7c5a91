#include "recipe/over_finish.h"

#include <algorithm>

#include <fmt/format.h>

#include "recipe/adaptation.h"

namespace coatwright {
namespace {

constexpr const char* kClean =
    "Wash the old finish clean of wax, grease and polish, let it dry, and try the coat on a hidden "
    "spot first.";

/// Whether a step prepares bare wood, which there is none of.
Result<bool> prepares_wood(const ScheduleStep& step, const RecipeBook& book) {
  switch (step.kind) {
    case ScheduleStepKind::kSand:
    case ScheduleStepKind::kRaiseGrain:
    case ScheduleStepKind::kWash:
      return true;
    case ScheduleStepKind::kCoat:
      break;
    default:
      return false;
  }
  const auto product = book.product(step.product);
  if (!product) {
    return pass_on(product.error());
  }
  return (*product)->kind == ProductKind::kFiller || is_wash_coat(**product);
}

bool is_refused(const PairRule& rule) {
  return rule.verdict == PairVerdict::kNever || rule.verdict == PairVerdict::kBarrierFirst;
}

/// The first of a pair's barriers that holds on the one and bears the other; null when none does.
const Product* barrier_between(const PairRule& rule,
                               const Product& under,
                               const Product& over,
                               const RecipeBook& book) {
  for (const std::string& name : rule.barriers) {
    const auto barrier = book.product(name);
    if (!barrier) {
      continue;  // a layer without a product of its own name
    }
    const auto holds = book.pair(under, **barrier);
    const auto bears = book.pair(**barrier, over);
    if (holds && bears && !is_refused(*holds) && !is_refused(*bears)) {
      return *barrier;
    }
  }
  return nullptr;
}

ScheduleStep barrier_step(const Product& barrier, const PairRule& rule) {
  ScheduleStep step;
  step.kind = ScheduleStepKind::kCoat;
  step.product = barrier.name;
  step.method = barrier.methods.front();
  step.source = rule.source;
  step.note = fmt::format("A barrier: {}.", rule.reason);
  return step;
}

/// What a wood is taken for of which nothing is known: no trait that asks for a step of its own.
const Species& unknown_wood() {
  static const Species kUnknown = [] {
    Species wood;
    wood.name = "unknown";
    wood.title = "Wood of unknown kind";
    return wood;
  }();
  return kUnknown;
}

}  // namespace

Result<Schedule> over_finish(const Schedule& schedule,
                             const Product& finish,
                             const RecipeBook& book) {
  Schedule result = schedule;
  result.steps.clear();
  for (const ScheduleStep& step : schedule.steps) {
    const auto left_out = prepares_wood(step, book);
    if (!left_out) {
      return pass_on(left_out.error());
    }
    if (!*left_out) {
      result.steps.push_back(step);
    }
  }
  const auto first = std::find_if(result.steps.begin(), result.steps.end(), [](const auto& step) {
    return step.kind == ScheduleStepKind::kCoat;
  });
  if (first == result.steps.end()) {
    return fail(ErrorCode::kOutOfRange,
                fmt::format("{} is for bare wood only: strip the finish first", schedule.name));
  }
  const auto product = book.product(first->product);
  if (!product) {
    return pass_on(product.error());
  }
  const auto rule = book.pair(finish, **product);
  if (!rule) {
    return pass_on(rule.error());
  }
  auto lowest = first;
  if (rule->verdict == PairVerdict::kBarrierFirst) {
    if (const Product* barrier = barrier_between(*rule, finish, **product, book)) {
      lowest = result.steps.insert(first, barrier_step(*barrier, *rule));
    }
  }
  lowest->note = lowest->note.empty() ? kClean : fmt::format("{} {}", kClean, lowest->note);
  return result;
}

Result<Schedule> schedule_on(const Schedule& schedule,
                             const PieceSurface& surface,
                             const RecipeBook& book) {
  const Species& wood = surface.species == nullptr ? unknown_wood() : *surface.species;
  auto made = adapted(schedule, wood, surface.wood, book);
  if (made && surface.over != nullptr) {
    made = over_finish(*made, *surface.over, book);
  }
  return made;
}

Product long_dry(const Product& finish) {
  constexpr double kMoment = 0.01;  // hours; as good as none
  Product dry = finish;
  const DurationRange moment(Hours::from_hours(kMoment), Hours::from_hours(kMoment));
  for (auto& [stage, drying] : dry.stages) {
    drying.timing = StageTiming{{{rate_law_of(Mechanism::kElapsed), moment, 0.0}}};
  }
  dry.wipe_off.reset();
  return dry;
}

}  // namespace coatwright
