#include "recipe/product.h"

#include <iterator>

namespace coatwright {

std::string_view name_of(Method method) {
  switch (method) {
    case Method::kWipe:
      return "wipe";
    case Method::kBrush:
      return "brush";
    case Method::kPad:
      return "pad";
    case Method::kSpray:
      return "spray";
  }
  return "";
}

std::string_view name_of(ProductKind kind) {
  switch (kind) {
    case ProductKind::kStain:
      return "stain";
    case ProductKind::kFiller:
      return "filler";
    case ProductKind::kSealer:
      return "sealer";
    case ProductKind::kClearFilm:
      return "clear-film";
    case ProductKind::kEnamel:
      return "enamel";
    case ProductKind::kOil:
      return "oil";
    case ProductKind::kWax:
      return "wax";
  }
  return "";
}

std::string_view name_of(PreparationCase when) {
  switch (when) {
    case PreparationCase::kAlways:
      return "always";
    case PreparationCase::kFlakes:
      return "flakes";
    case PreparationCase::kColdCan:
      return "cold-can";
  }
  return "";
}

const DryingStage* Product::stage(Stage which) const {
  const auto found = stages.find(which);
  return found == stages.end() ? nullptr : &found->second;
}

StageTiming Product::wait_of(const DurationRange& whole) const {
  const auto next = stages.upper_bound(Stage::kRecoat);
  const auto& laws = next == stages.begin() ? stages.begin()->second : std::prev(next)->second;
  const Phase& last = laws.timing.phases.back();
  return StageTiming{{{last.law, whole, last.film_exponent}}};
}

}  // namespace coatwright
