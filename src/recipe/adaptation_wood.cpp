// What a wood needs beyond the schedule's own steps.
#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "recipe/adaptation.h"
#include "recipe/adaptation_parts.h"

namespace coatwright {
namespace {

constexpr std::string_view kWashCoat = "shellac-wash-coat";
constexpr std::string_view kBarrier = "dewaxed-shellac";

bool is_coat(const ScheduleStep& step) {
  return step.kind == ScheduleStepKind::kCoat;
}

/// Gel stain stays on top and dye colours more evenly: they need no wash coat.
bool penetrates(const Product& product) {
  return product.layer == "oil-stain" || product.layer == "water-stain";
}

/// Whether a coat closes the wood, so that it is no longer bare for what follows.
bool seals(const Product& product) {
  return product.kind != ProductKind::kStain && product.kind != ProductKind::kFiller;
}

/// Puts a step in before the one at an index, which moves up.
void insert(Schedule& schedule, std::size_t index, ScheduleStep step) {
  schedule.steps.insert(schedule.steps.begin() + static_cast<std::ptrdiff_t>(index),
                        std::move(step));
}

/// A coat of a product, by the same method as another step's where it can be.
Result<ScheduleStep> coat_of(std::string_view name,
                             const ScheduleStep& like,
                             std::string_view note,
                             const RecipeBook& book) {
  const auto product = book.product(std::string(name));
  if (!product) {
    return pass_on(product.error());
  }
  const std::vector<Method>& methods = (*product)->methods;
  ScheduleStep step;
  step.kind = ScheduleStepKind::kCoat;
  step.product = name;
  step.method = std::find(methods.begin(), methods.end(), like.method) != methods.end()
                    ? like.method
                    : methods.front();
  step.source = "common-practice";
  step.note = note;
  return step;
}

/// What a method is done with, as schedules name it.
std::string_view tool_of(Method method) {
  switch (method) {
    case Method::kWipe:
      return "rags";
    case Method::kBrush:
      return "brush";
    case Method::kPad:
      return "pads";
    case Method::kSpray:
      return "spray gun";
  }
  return "";
}

void need_tool(Schedule& schedule, std::string_view tool) {
  std::vector<std::string>& tools = schedule.tools;
  if (std::find(tools.begin(), tools.end(), tool) == tools.end()) {
    tools.emplace_back(tool);
  }
}

ScheduleStep abrading(std::string_view note) {
  ScheduleStep step;
  step.kind = ScheduleStepKind::kAbrade;
  step.source = "common-practice";
  step.note = note;
  return step;
}

bool opens_with(const PairRule& rule, RecoatCondition condition) {
  return std::any_of(rule.intervals.begin(),
                     rule.intervals.end(),
                     [condition](const RecoatInterval& one) { return one.condition == condition; });
}

tl::unexpected<Error> oily_refusal(const Product& product,
                                   const AdaptationGround& ground,
                                   const std::string& why) {
  return fail(
      ErrorCode::kOutOfRange,
      fmt::format("{} is oily, and its oils hold up {}, which cures by taking up oxygen; a "
                  "barrier coat of {} would have to part them, but it does not do here: {}. "
                  "What would work: a varnish over {}, or a film that dries without oxygen, "
                  "such as shellac, lacquer or wax",
                  ground.species.title,
                  product.name,
                  kBarrier,
                  why,
                  kBarrier));
}

/// Whether the next product goes over one that is there, and after abrading alone.
struct Passage {
  std::string refused;  ///< Empty: it goes.
  bool abrade = false;
};

Passage passage(const Product& under, const Product& over, const RecipeBook& book) {
  const Result<PairRule> rule = book.pair(under, over);
  if (!rule) {
    return {rule.error().message, false};
  }
  const bool plain = opens_with(*rule, RecoatCondition::kNone);
  const bool abrade = opens_with(*rule, RecoatCondition::kAbrade);
  return {plain || abrade ? "" : rule->reason, !plain};
}

/// Puts a barrier coat before the coat at an index, with abrading where the next coat needs it.
Result<void> add_barrier(Schedule& schedule, std::size_t index, const AdaptationGround& ground) {
  const RecipeBook& book = ground.book;
  const auto product = book.product(schedule.steps[index].product);
  const auto barrier = book.product(std::string(kBarrier));
  const auto before = product_before(schedule, index, book);
  if (!product || !barrier || !before) {
    return pass_on(!product ? product.error() : !barrier ? barrier.error() : before.error());
  }
  if (*before != nullptr) {
    if (const Passage onto = passage(**before, **barrier, book); !onto.refused.empty()) {
      return oily_refusal(**product, ground, onto.refused);
    }
  }
  const Passage over = passage(**barrier, **product, book);
  if (!over.refused.empty()) {
    return oily_refusal(**product, ground, over.refused);
  }
  auto coat = coat_of(kBarrier,
                      schedule.steps[index],
                      fmt::format("Put in as a barrier: {} is oily, and its oils would hold up {}, "
                                  "which cures by taking up oxygen.",
                                  ground.species.title,
                                  (*product)->name),
                      book);
  if (!coat) {
    return pass_on(std::move(coat.error()));
  }
  if (over.abrade) {
    insert(
        schedule, index, abrading("Put in, since the next coat holds on scuffed shellac alone."));
  }
  need_tool(schedule, tool_of(coat->method));
  insert(schedule, index, std::move(*coat));
  return {};
}

void add_wash(Schedule& schedule, const AdaptationGround& ground) {
  const std::size_t coat = first_coat(schedule);
  const bool washed =
      std::any_of(schedule.steps.begin(),
                  schedule.steps.begin() + static_cast<std::ptrdiff_t>(coat),
                  [](const ScheduleStep& step) { return step.kind == ScheduleStepKind::kWash; });
  if (washed) {
    return;
  }
  ScheduleStep wash;
  wash.kind = ScheduleStepKind::kWash;
  wash.source = "trade_finishing_web";
  wash.note = fmt::format(
      "Put in, since {} is oily: wipe it with a fast solvent and clean rags until they stay clean, "
      "and coat at once, before the oils come back. Flammable vapour: no flame, spark or heater.",
      ground.species.title);
  need_tool(schedule, "rags");
  insert(schedule, coat, std::move(wash));
}

/// @return the index of the first coat that cures by oxygen on wood which nothing has closed;
/// nothing where there is none.
Result<std::optional<std::size_t>> exposed_coat(const Schedule& schedule, const RecipeBook& book) {
  for (std::size_t i = 0; i < schedule.steps.size(); ++i) {
    if (!is_coat(schedule.steps[i])) {
      continue;
    }
    const auto product = book.product(schedule.steps[i].product);
    if (!product) {
      return pass_on(product.error());
    }
    if ((*product)->oxidises) {
      return std::optional(i);
    }
    if (seals(**product) && !is_wash_coat(**product)) {
      break;
    }
  }
  return std::optional<std::size_t>();
}

/// Whether bare wood is wetted with water. A wash coat stiffens the fibres and counts as sealing.
Result<const Product*> wets_bare_wood(const Schedule& schedule, const RecipeBook& book) {
  for (const ScheduleStep& step : schedule.steps) {
    if (!is_coat(step)) {
      continue;
    }
    const auto product = book.product(step.product);
    if (!product) {
      return pass_on(product.error());
    }
    if ((*product)->raises_grain) {
      return *product;
    }
    if (seals(**product)) {
      break;
    }
  }
  return nullptr;
}

}  // namespace

Result<void> even_the_stain(Schedule& schedule, const AdaptationGround& ground) {
  const std::size_t index = first_coat(schedule);
  const auto product = ground.book.product(schedule.steps[index].product);
  if (!product) {
    return pass_on(product.error());
  }
  if (!ground.species.blotches || !penetrates(**product)) {
    return {};
  }
  auto coat = coat_of(
      kWashCoat,
      schedule.steps[index],
      fmt::format("Put in, since {} takes stain unevenly: a thin wash coat evens the uptake.",
                  ground.species.title),
      ground.book);
  if (!coat) {
    return pass_on(std::move(coat.error()));
  }
  insert(schedule,
         index,
         abrading("Put in after the wash coat: lightly, for the raised fibres alone."));
  need_tool(schedule, tool_of(coat->method));
  insert(schedule, index, std::move(*coat));
  return {};
}

Result<void> part_from_oils(Schedule& schedule, const AdaptationGround& ground) {
  if (!ground.species.oily) {
    return {};
  }
  const auto exposed = exposed_coat(schedule, ground.book);
  if (!exposed) {
    return pass_on(exposed.error());
  }
  if (*exposed) {
    if (auto added = add_barrier(schedule, **exposed, ground); !added) {
      return added;
    }
  }
  add_wash(schedule, ground);
  return {};
}

Result<void> raise_the_grain(Schedule& schedule, const AdaptationGround& ground) {
  const auto product = wets_bare_wood(schedule, ground.book);
  if (!product) {
    return pass_on(product.error());
  }
  const bool raised =
      std::any_of(schedule.steps.begin(), schedule.steps.end(), [](const ScheduleStep& step) {
        return step.kind == ScheduleStepKind::kRaiseGrain;
      });
  if (*product == nullptr || raised) {
    return {};
  }
  const bool softwood = has_trait(ground.species, WoodTrait::kSoftwood);
  const SandingGround& why =
      (softwood ? ground.sanding.raised_softwood : ground.sanding.raised_hardwood)->ground;
  ScheduleStep step;
  step.kind = ScheduleStepKind::kRaiseGrain;
  step.source = why.source;
  step.note = fmt::format("Put in, since {} wets bare wood: {}.", (*product)->name, why.reason);
  std::size_t index = first_coat(schedule);
  while (index > 0 && schedule.steps[index - 1].kind == ScheduleStepKind::kWash) {
    --index;
  }
  insert(schedule, index, std::move(step));
  return {};
}

}  // namespace coatwright
