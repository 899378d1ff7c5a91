#include "recipe/adaptation.h"

#include <algorithm>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "recipe/adaptation_parts.h"

namespace coatwright {
namespace {

/// What a wood is that has no such trait.
std::string_view lacks(WoodTrait trait) {
  switch (trait) {
    case WoodTrait::kOpenPored:
      return "is not open-pored";
    case WoodTrait::kClosePored:
      return "is not close-pored";
    case WoodTrait::kBlotching:
      return "does not blotch";
    case WoodTrait::kOily:
      return "is not oily";
    case WoodTrait::kTannin:
      return "has little tannin";
    case WoodTrait::kSoftwood:
      return "is no softwood";
  }
  return "";
}

Result<std::string> words_for(const ScheduleStep& step, const RecipeBook& book) {
  switch (step.kind) {
    case ScheduleStepKind::kSample:
      return "the sample";
    case ScheduleStepKind::kSand:
      return "sanding";
    case ScheduleStepKind::kRaiseGrain:
      return "raising the grain";
    case ScheduleStepKind::kWash:
      return "washing with solvent";
    case ScheduleStepKind::kAbrade:
      return "abrading";
    case ScheduleStepKind::kRubOut:
      return "rubbing out";
    case ScheduleStepKind::kCoat:
      break;
  }
  const auto product = book.product(step.product);
  if (!product) {
    return pass_on(product.error());
  }
  return fmt::format("{} {}",
                     (*product)->kind == ProductKind::kFiller ? "filling with" : "the coat of",
                     step.product);
}

bool fits(const ScheduleStep& step, const Species& species) {
  return step.woods.empty() ||
         std::any_of(step.woods.begin(), step.woods.end(), [&species](WoodTrait trait) {
           return has_trait(species, trait);
         });
}

/// Steps that were left out one after the other for the same reason.
struct LeftOut {
  std::vector<std::string> steps;
  std::vector<WoodTrait> woods;
};

std::string sentence(const LeftOut& left_out, const Schedule& schedule, const Species& species) {
  std::vector<std::string_view> lacking;
  for (const WoodTrait trait : left_out.woods) {
    lacking.push_back(trait == WoodTrait::kOpenPored && schedule.filled ? "has no pores to fill"
                                                                        : lacks(trait));
  }
  return fmt::format("Left out here: {}; {} {}.",
                     fmt::join(left_out.steps, ", "),
                     species.title,
                     fmt::join(lacking, " and "));
}

/// Gathers what is kept, and puts the reasons of what is not on the step that follows.
class Sieve {
 public:
  Sieve(const Schedule& schedule, const AdaptationGround& ground)
      : schedule_(schedule), ground_(ground) {}

  Result<void> pass(const ScheduleStep& step) {
    if (!fits(step, ground_.species)) {
      return leave_out(step);
    }
    kept_.push_back(step);
    kept_.back().woods.clear();
    write_reasons();
    return {};
  }

  std::vector<ScheduleStep> take() {
    if (!kept_.empty()) {
      write_reasons();
    }
    return std::move(kept_);
  }

 private:
  Result<void> leave_out(const ScheduleStep& step) {
    auto words = words_for(step, ground_.book);
    if (!words) {
      return pass_on(std::move(words.error()));
    }
    if (left_out_.empty() || left_out_.back().woods != step.woods) {
      left_out_.push_back({{}, step.woods});
    }
    left_out_.back().steps.push_back(std::move(*words));
    return {};
  }

  void write_reasons() {
    for (const LeftOut& one : left_out_) {
      add_note(kept_.back(), sentence(one, schedule_, ground_.species));
    }
    left_out_.clear();
  }

  const Schedule& schedule_;
  const AdaptationGround& ground_;
  std::vector<ScheduleStep> kept_;
  std::vector<LeftOut> left_out_;
};

}  // namespace

void add_note(ScheduleStep& step, std::string_view sentence) {
  if (!step.note.empty()) {
    const char last = step.note.back();
    step.note += last == '.' || last == '!' || last == '?' ? " " : ". ";
  }
  step.note += sentence;
}

std::size_t first_coat(const Schedule& schedule) {
  const auto coat =
      std::find_if(schedule.steps.begin(), schedule.steps.end(), [](const ScheduleStep& step) {
        return step.kind == ScheduleStepKind::kCoat;
      });
  return static_cast<std::size_t>(coat - schedule.steps.begin());
}

Result<const Product*> product_before(const Schedule& schedule,
                                      std::size_t step,
                                      const RecipeBook& book) {
  while (step-- > 0) {
    if (schedule.steps[step].kind == ScheduleStepKind::kCoat) {
      return book.product(schedule.steps[step].product);
    }
  }
  return nullptr;
}

Result<void> leave_out_other_woods(Schedule& schedule, const AdaptationGround& ground) {
  Sieve sieve(schedule, ground);
  for (const ScheduleStep& step : schedule.steps) {
    if (auto passed = sieve.pass(step); !passed) {
      return passed;
    }
  }
  schedule.steps = sieve.take();
  if (first_coat(schedule) == schedule.steps.size()) {
    return fail(ErrorCode::kOutOfRange,
                fmt::format("no coat of the schedule is for {}", ground.species.title));
  }
  return {};
}

bool is_wash_coat(const Product& product) {
  return product.layer == "wash-coat";
}

Result<const Product*> product_to_sand_for(const Schedule& schedule, const RecipeBook& book) {
  const Product* decides = nullptr;
  for (const ScheduleStep& step : schedule.steps) {
    if (step.kind != ScheduleStepKind::kCoat) {
      continue;
    }
    const auto product = book.product(step.product);
    if (!product) {
      return pass_on(product.error());
    }
    decides = *product;
    if (!is_wash_coat(**product)) {
      break;
    }
  }
  return decides;
}

Result<Schedule> adapted(const Schedule& schedule,
                         const Species& species,
                         const WoodSurface& start,
                         const RecipeBook& book) {
  const auto sanding = book.sanding();
  if (!sanding) {
    return pass_on(sanding.error());
  }
  const AdaptationGround ground = {species, start, book, **sanding};
  Schedule result = schedule;
  for (auto* part :
       {leave_out_other_woods, even_the_stain, part_from_oils, raise_the_grain, choose_grits}) {
    if (const auto done = part(result, ground); !done) {
      return pass_on(done.error(), fmt::format("{} on {}", schedule.name, species.name));
    }
  }
  return result;
}

}  // namespace coatwright
